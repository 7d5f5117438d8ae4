"""From labels to findings: the courses of a piece wait in a line, are summed one upon the other, and spoken of."""

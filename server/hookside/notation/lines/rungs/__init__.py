"""What a line is: one question behind the other, and the first that knows an answer puts the line where it belongs."""

"""Fourth stage: the body of a course -> tokens -> the phrases that the grammar knows."""

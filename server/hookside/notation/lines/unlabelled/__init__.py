"""Lines without a label: courses of a text that has none, a round below a whole one, the rest of one that was cut."""

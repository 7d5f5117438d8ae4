"""What a line that looks like a heading is refused for: one file for each sort of reason, `table` in order."""

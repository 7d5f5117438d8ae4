"""What stands about the names of parts: numbers and words that only count them, and what is told of their copies."""

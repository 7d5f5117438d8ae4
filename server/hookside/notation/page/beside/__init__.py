"""What stands on a page beside its pattern: who wrote and when, times of a film, pictures, what was struck out."""

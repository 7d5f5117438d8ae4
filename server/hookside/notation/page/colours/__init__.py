"""Colors that lead a round, or stand beside its label."""

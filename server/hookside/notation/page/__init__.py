"""First stage: the text as it was pasted -> a page of tidy lines, each character knowing its place in the original."""

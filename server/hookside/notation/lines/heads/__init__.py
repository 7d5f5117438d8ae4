"""Where a piece begins, what it is called, and what else its heading tells."""

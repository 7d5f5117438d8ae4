"""Colors and yarns that headings and lines of their own name."""

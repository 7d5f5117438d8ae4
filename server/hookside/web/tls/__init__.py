"""The household's own authority and what it vouches for. Loaded when sharing begins, not before."""

"""How many copies of a piece are asked for: in its heading, a list, below its name, behind its rounds."""

"""The facts of a line, each in the words it was read in."""

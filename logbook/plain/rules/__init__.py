"""Which kind of fact a line tells: the rules beside the main ones."""

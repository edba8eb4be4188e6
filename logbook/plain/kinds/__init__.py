"""Which kind of fact a line tells: one rule after another."""

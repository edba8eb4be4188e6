"""The order of work: what must be inside, what an act goes past, what stops."""

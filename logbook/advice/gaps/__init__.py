"""Gaps: what each is now, whose doubt it is, what the piece made last has to be."""

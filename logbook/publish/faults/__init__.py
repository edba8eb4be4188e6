"""A known fault, told to who holds something that may have it."""

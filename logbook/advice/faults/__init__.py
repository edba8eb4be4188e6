"""Faults: who has them, what helped, where fixed, what nobody has said."""

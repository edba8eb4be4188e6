"""Cutting, buying, and what a process does to a size."""

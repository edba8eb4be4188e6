"""Measuring: one piece from size to size, or one size across a batch."""

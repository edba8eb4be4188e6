"""Limits, fits, and whether a reading keeps to its limits."""

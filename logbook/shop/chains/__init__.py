"""Chains of dimensions: what the gap at the end comes to, and a piece made to suit."""

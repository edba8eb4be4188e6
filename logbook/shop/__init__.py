"""Arithmetic of the shop: pure functions, tables as data files with their sources."""

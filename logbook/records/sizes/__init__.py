"""Sizes as drawn and as expected: limits, places, what a value can be."""

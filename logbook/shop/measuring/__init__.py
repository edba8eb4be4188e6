"""Readings: statistics, control, gauges, uncertainty, rounding, form."""

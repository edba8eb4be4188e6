"""A workshop logbook in the design's own git repository."""

__version__ = "0.1.0"

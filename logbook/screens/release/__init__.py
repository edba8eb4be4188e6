"""Putting out a release and its pages from the bench."""

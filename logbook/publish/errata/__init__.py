"""The page of known faults of a release, and the pages that are stale by now."""

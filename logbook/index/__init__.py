"""A disposable index of the records; never a source of truth."""

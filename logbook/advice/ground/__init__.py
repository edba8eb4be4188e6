"""What all advice stands on: what was looked at, what it was called, what it costs."""

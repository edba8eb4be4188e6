"""The day's job on paper, and back from paper."""

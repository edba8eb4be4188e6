"""The first screen: where you were, what is open, the newest entries, the line."""

"""The shop calculator and the note a sum becomes."""

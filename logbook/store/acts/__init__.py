"""What was saved together, so that it can be taken back."""

"""What a part, a revision, an entry is; text to record and back."""

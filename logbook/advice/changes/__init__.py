"""What a change touches; what old and new pieces have to do with each other."""

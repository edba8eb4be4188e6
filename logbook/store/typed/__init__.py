"""What was typed or set, kept outside the repository."""

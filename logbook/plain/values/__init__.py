"""What the figures of a line are, and what each is called."""

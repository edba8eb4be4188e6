"""What the records mean for the next cut: pure functions of a snapshot."""

"""What happened on the bench, in order, for the next builder."""

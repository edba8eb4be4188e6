"""What entries come to: states of pieces, revisions, steps, builds; never stored."""

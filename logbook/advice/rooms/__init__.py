"""What warmth and damp of the rooms do to sizes and plastics."""

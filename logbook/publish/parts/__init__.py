"""What became of parts, and of what they make together, for any page."""

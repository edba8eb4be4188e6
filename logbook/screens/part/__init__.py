"""One part with all that is known of it, and its next revision."""

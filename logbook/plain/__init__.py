"""What a plain line typed at the bench means."""

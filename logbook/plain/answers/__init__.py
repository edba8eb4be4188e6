"""Lines held to what is on record, and what the one answer makes of them."""

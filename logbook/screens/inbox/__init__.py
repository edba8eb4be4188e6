"""What the phone sent: photos and texts, each sorted by one key."""

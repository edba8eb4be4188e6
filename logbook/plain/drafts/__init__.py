"""The records an understood line becomes."""

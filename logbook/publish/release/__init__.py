"""A release put together, and its statements read back."""

"""Records as text, and back: read, written, and edited in place."""

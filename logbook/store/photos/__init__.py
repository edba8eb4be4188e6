"""Photos cleaned and linked; what a phone sent, sorted."""

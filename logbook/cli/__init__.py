"""The verbs for the shell."""

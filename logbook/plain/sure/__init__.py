"""How sure the reading of a line is: what was left unread, what speaks against it."""

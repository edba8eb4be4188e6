"""What is proposed unasked, a rule a module; `advice/proposals.py` is the list."""

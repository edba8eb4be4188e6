"""Records on their way: what is missing is made, what is meant is asked."""

"""One record: its rows, a fact of it being amended, how it is taken back."""

"""What all screens are made of: the ruled sheet, its rows, its line, its keys."""

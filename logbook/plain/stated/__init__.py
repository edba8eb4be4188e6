"""What is stated exactly, with options: of the shell or on the line of a screen."""

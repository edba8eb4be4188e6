"""Names of parts and steps in a line, known ones and new ones."""

"""Finding a project, reading its records, noticing changes."""

"""Find the project, read it, save records, photos, git."""

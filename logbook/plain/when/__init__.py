"""Days and hours as they are spoken of."""

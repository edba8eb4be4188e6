"""When it happened: days and hours as they are spoken of."""

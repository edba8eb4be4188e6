"""Signs that a line was misread: it is then asked about."""

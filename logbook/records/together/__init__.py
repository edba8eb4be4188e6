"""All records at one moment, what refers to what, and the moment after."""

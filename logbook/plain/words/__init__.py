"""A line as a row of the words and figures a project knows."""

"""A line cut into words and figures, and words joined where they are one."""

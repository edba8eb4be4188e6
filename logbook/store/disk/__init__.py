"""What is really on the disk, and where our own small files lie."""

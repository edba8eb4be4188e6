"""Records in the history of the user's own repository, disturbing nothing of his.

Nothing here knows what a record says: it sees paths, bytes, commits.
"""

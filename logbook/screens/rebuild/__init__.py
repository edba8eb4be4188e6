"""Before a rebuild: what somebody holds, and what applies to it."""

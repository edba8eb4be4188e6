"""The order of work, the clock on a step, the job sheet typed in."""

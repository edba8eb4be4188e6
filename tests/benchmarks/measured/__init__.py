"""Programs that benchmarks start and time; each is run with `python -m`."""

"""How long the library's work takes, run by hand: `python -m tests.benchmarks`."""

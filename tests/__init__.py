"""The tests; a package, so that `-p tests.place` finds its place."""

"""A pattern written in the browser: what was typed, what it means, what is wrong with it."""

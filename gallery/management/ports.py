"""A port as it is typed on the command line."""

from argparse import ArgumentTypeError

HIGHEST = 65535


def port(text: str) -> int:
    """The number of a port; refuses what is none."""
    if not text.isdecimal() or not 1 <= int(text) <= HIGHEST:
        raise ArgumentTypeError(f"“{text}” is no port; give a number from 1 to {HIGHEST}")
    return int(text)

"""Keeps the tokens of private links out of the log."""

import logging
import re

_TOKEN = re.compile(r"(/(?:mine|guardian)/link/)[^/\s'\"]+")


class HideTokens(logging.Filter):
    """Lets every line through, with the token of a private link struck out."""

    def filter(self, record: logging.LogRecord) -> bool:
        said = record.getMessage()
        if "/link/" in said:
            record.msg, record.args = _TOKEN.sub(r"\1…", said), ()
        return True

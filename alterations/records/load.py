"""Takes a pattern file in: the same text twice is one version."""

import hashlib

from django.db import transaction
from django.utils.text import slugify

from alterations import patternfile
from alterations.errors import PatternFileError
from alterations.records.models import BasePattern, PatternVersion
from alterations.saying import gettext as _


def read_text(raw: bytes) -> str:
    """The checked text of a pattern file.

    Raises PatternFileError, each mistake with its place, where it is no pattern file.
    """
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        raise PatternFileError(
            (_("the file: it is not text in UTF-8; save it as plain text, UTF-8"),)
        ) from error
    patternfile.load_pattern(text)
    return text


@transaction.atomic
def load_pattern(text: str) -> PatternVersion:
    """Keep a pattern file as the next version of its pattern; known text gives its old version.

    Raises PatternFileError where the text is no pattern file.
    """
    numbers = patternfile.load_pattern(text)
    sha256 = hashlib.sha256(text.encode()).hexdigest()
    base, _created = BasePattern.objects.get_or_create(
        slug=slugify(numbers.name)[:50], defaults={"name": numbers.name}
    )
    known = base.versions.filter(sha256=sha256).first()
    newest = base.versions.order_by("-number").first()
    return known or base.versions.create(
        number=newest.number + 1 if newest else 1, text=text, sha256=sha256
    )

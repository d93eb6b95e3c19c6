"""What the sender changed since the teacher looked, field by field: as it was, as it is."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from alterations.lines import Line
from alterations.records import store
from alterations.records.models import Sheet
from gallery.contributions.editing.history import What
from gallery.contributions.garment_told import counted_words, wear_rows
from gallery.contributions.models import Change, Contribution, Photo
from gallery.contributions.shown import ShownPicture, small
from gallery.review.marked import Piece, marked
from gallery.review.standing import changes_to_look_at

ORDER = tuple(What)


@dataclass(frozen=True)
class Row:
    """One number or fact that is another now."""

    what: str
    before: str
    now: str


@dataclass(frozen=True)
class Difference:
    """One thing as it was and as it is; a text as marked pieces, numbers as rows."""

    what: Change.What
    title: str
    place: str = ""
    before: str = ""
    now: str = ""
    pieces: Sequence[Piece] = ()
    rows: Sequence[Row] = ()
    picture: ShownPicture | None = None

    @property
    def is_same_again(self) -> bool:
        """Whether it was changed and changed back."""
        if self.what in (What.ADDED, What.REMOVED):
            return False
        return not self.rows and self.before == self.now


def differences_of(garment: Contribution) -> list[Difference]:
    """Everything changed since the teacher decided on it, in the order of the page."""
    firsts: dict[tuple[str, str], Change] = {}
    for line in changes_to_look_at().filter(contribution=garment).order_by("pk"):
        firsts.setdefault((line.what, line.photo_id_then), line)
    photos = {one.public_id: one for one in garment.photos.prefetch_related("renditions")}
    found = [_difference(line, garment, photos.get(line.photo_id_then)) for line in firsts.values()]
    return sorted(found, key=lambda one: ORDER.index(one.what))


def _difference(line: Change, garment: Contribution, photo: Photo | None) -> Difference:
    what = What(line.what)
    if what == What.NUMBERS:
        rows = tuple(_numbers(line.sheet_before, garment.sheet))
        return Difference(what, _("Size, tools and numbers"), place="words", rows=rows)
    if what == What.REMOVED:
        return Difference(what, _("Picture %(n)s: taken out") % {"n": line.photo_number})
    if what in _OF_GARMENT or photo is None:
        return _of_garment(what, line.before, garment)
    return _of_photo(what, line.before, photo)


_OF_GARMENT = (What.NOTES, What.STAGE, What.NAME)


def _of_garment(what: Change.What, before: str, garment: Contribution) -> Difference:
    if what == What.STAGE:
        labels = dict(Contribution.Stage.choices)
        old, now = str(labels.get(before, before)), str(labels[garment.stage])
        return Difference(what, _("How far it is"), "words", old, now)
    now = garment.notes if what == What.NOTES else garment.credit_name
    title = _("The knitter's words") if what == What.NOTES else _("Name to be credited")
    place = "words" if what == What.NOTES else "name"
    return Difference(what, title, place, before, now, marked(before, now))


def _of_photo(what: Change.What, before: str, photo: Photo) -> Difference:
    number, place = {"n": photo.position}, photo.public_id
    if what == What.ADDED:
        return Difference(what, _("Picture %(n)s: new") % number, place, picture=small(photo))
    if what == What.DESCRIPTION:
        title, now = _("Picture %(n)s: what it shows") % number, photo.description
        return Difference(what, title, place, before, now, marked(before, now))
    if what == What.PHOTO_STAGE:
        labels = dict(Photo.Stage.choices)
        title = _("Picture %(n)s: which kind it is") % number
        now = str(labels[photo.stage])
    else:
        labels = dict(Photo.People.choices)
        title = _("Picture %(n)s: who can be recognised") % number
        now = str(labels[photo.people])
    return Difference(what, title, place, str(labels.get(before, before)), str(now))


def _numbers(old: Sheet | None, new: Sheet | None) -> Iterator[Row]:
    """Each fact and each line of numbers that is not the same on both sheets."""
    before, now = _facts(old), _facts(new)
    for what in dict.fromkeys([*before, *now]):
        as_it_was, as_it_is = before.get(what, ""), now.get(what, "")
        if as_it_was != as_it_is:
            yield Row(what, as_it_was, as_it_is)


def _facts(sheet: Sheet | None) -> dict[str, str]:
    if sheet is None:
        return {}
    summary = store.summary_of(sheet)
    gauge = store.gauge_of(sheet)
    facts = {
        _("Size"): summary.size_name,
        _("Name of the yarn"): summary.yarn,
        _("Made with"): summary.tool,
        _("Her own swatch"): str(gauge) if gauge else "",
        _("Counted on her swatch"): counted_words(sheet),
        _("At her own gauge she kept"): str(sheet.get_keeps_display()) if gauge else "",
        _("Numbers cannot be worked out"): summary.trouble,
        _("Notes with the changes"): "\n".join(summary.notes),
    }
    facts.update(
        {
            _("How it behaved: %(what)s") % {"what": one}: said
            for one, said in wear_rows(summary.wear)
        }
    )
    for line in summary.lines:
        facts[line.what] = "\n".join(filter(None, [facts.get(line.what), _line(line)]))
    return facts


def _line(line: Line) -> str:
    """The numbers of a line in words, one below the other: "104 rows → 118 rows, +14 rows"."""
    numbers = [
        f"{one.base} → {one.made}" + (f", {one.change}" if one.change else "")
        for one in line.numbers
    ]
    return "\n".join([*numbers, line.note] if line.note else numbers)

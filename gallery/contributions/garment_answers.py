"""What typed measures, a swatch, a yarn and a worn garment come to, in sentences, as one types."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from alterations.categories import CREDIT, PER_4_IN, categories_of_stitches
from alterations.choosing import SizeInShort, nearest_size
from alterations.counted import FOUR_IN, Counted
from alterations.errors import AlterationsError
from alterations.gauge import shown
from alterations.rounding import round_half_up
from alterations.thickness import metres_in_100_g, usual_categories
from alterations.units import Length, ShownIn, parse_length, parse_number, show_length
from alterations.wear import Measured
from gallery.contributions.balls import METRES_IN_100_G, metres_of_100_g
from gallery.contributions.change_form import SHOWN_IN, YARN_CHOICE
from gallery.contributions.garment_form import MEASURED, STANDARD_OVER, GarmentForm
from gallery.contributions.garment_told import changed_words
from gallery.contributions.making_groups import STRANDS

CATEGORY_NAMES: dict[int, Any] = {
    0: gettext_lazy("lace"),
    1: gettext_lazy("super fine"),
    2: gettext_lazy("fine"),
    3: gettext_lazy("light"),
    4: gettext_lazy("medium"),
    5: gettext_lazy("bulky"),
    6: gettext_lazy("super bulky"),
    7: gettext_lazy("jumbo"),
}


@dataclass(frozen=True)
class Answers:
    """Read leniently from the typed texts: what cannot be read yet is simply not answered."""

    form: GarmentForm
    said: Mapping[str, Any]

    @property
    def size(self) -> str:
        """Which size is nearest to the measures of a garment that fits."""
        try:
            chest, length = (self._cm(name) for name in ("help_chest", "help_length"))
        except AlterationsError as error:
            return str(error)
        if chest is None and length is None:
            return ""
        found = nearest_size(self.form.pattern, chest, length)
        if found is None:
            return _("This pattern does not name that measure of its sizes.")
        return " ".join(self._about(found, chest, length))

    def _about(
        self, size: SizeInShort, chest: Fraction | None, length: Fraction | None
    ) -> Iterable[str]:
        yield _("Size %(size)s is nearest.") % {"size": size.name}
        if size.chest_cm is not None and chest is not None:
            words = _("Its chest is %(has)s: %(beside)s.")
            yield words % self._beside(size.chest_cm, chest)
        if size.length_cm is not None and length is not None:
            words = _("Its length is %(has)s: %(beside)s.")
            yield words % self._beside(size.length_cm, length)

    def _beside(self, has: Fraction, wanted: Fraction) -> dict[str, str]:
        by = show_length(abs(has - wanted), self._shown_in)
        if has > wanted:
            beside = _("%(by)s more than yours") % {"by": by}
        elif has < wanted:
            beside = _("%(by)s less than yours") % {"by": by}
        else:
            beside = _("just as yours")
        return {"has": show_length(has, self._shown_in), "beside": beside}

    @property
    def swatch(self) -> str:
        """The swatch as stitches and rows in 10 cm, beside the pattern's."""
        counted = self._counted()
        if counted is None:
            return ""
        hers, pattern = counted.gauge, self.form.pattern.gauge
        return _(
            "That is %(stitches)s stitches and %(rows)s rows in 10 cm; the pattern has "
            "%(of_pattern)s and %(rows_of_pattern)s."
        ) % {
            "stitches": shown(hers.stitches),
            "rows": shown(hers.rows),
            "of_pattern": shown(pattern.stitches_per_cm * 10),
            "rows_of_pattern": shown(pattern.rows_per_cm * 10),
        }

    @property
    def swatch_question(self) -> str:
        """Whether 10 cm and 4 inches were mixed up; nothing where nothing looks like it."""
        counted = self._counted()
        meant = counted.meant_otherwise(self.form.pattern.gauge) if counted else None
        if counted is None or meant is None:
            return ""
        is_inches = counted.over == FOUR_IN
        return _(
            "Did you count over %(over)s, or over %(other)s? Over %(over)s it is %(stitches)s "
            "stitches in 10 cm, over %(other)s it is %(meant)s, which fits the pattern's "
            "%(pattern)s better. Please look which it was."
        ) % {
            "over": _unbroken(STANDARD_OVER["in" if is_inches else "cm"]),
            "other": _unbroken(STANDARD_OVER["cm" if is_inches else "in"]),
            "stitches": shown(counted.gauge.stitches),
            "meant": shown(meant.gauge.stitches),
            "pattern": shown(self.form.pattern.gauge.stitches_per_cm * 10),
        }

    def _counted(self) -> Counted | None:
        stitches, rows = (
            self._number("swatch_counted_stitches"),
            self._number("swatch_counted_rows"),
        )
        if not stitches or not rows:
            return None
        try:
            over, high = self._over("swatch_counted_over"), self._over("swatch_counted_high")
            counted = Counted(stitches, over, rows, high)
            return counted if counted.gauge else None
        except AlterationsError:
            return None

    def _over(self, name: str) -> Length:
        return parse_length(self._text(name) or STANDARD_OVER["cm"], self.form.unit)

    @property
    def yarn(self) -> str:
        """How thick the yarn is: metres in 100 g, and the category it usually falls into."""
        choice = self._text(YARN_CHOICE)
        of_strands = "" if choice == "other" else self._of_strands()
        of_yarn = "" if choice == "strands" else self._of_yarn()
        return "" if choice == "pattern" else of_yarn or of_strands

    def _of_yarn(self) -> str:
        metres = metres_of_100_g(self._numbers("yarn_", ""), "yarn_")
        words = [_thickness(_("About %(metres)s m in 100 g: %(category)s."), metres)]
        stitches = self._number("yarn_stitches")
        if stitches:
            per_4_in = stitches * PER_4_IN if self._text("yarn_basis") in ("", "10cm") else stitches
            category = _category_words(categories_of_stitches(per_4_in))
            words.append(_("By your gauge in it: %(category)s.") % {"category": category})
        return " ".join(filter(None, words))

    def _of_strands(self) -> str:
        tex = Fraction(0)
        for at in range(1, STRANDS + 1):
            metres = metres_of_100_g(self._numbers("strand_", f"_{at}"), "strand_", f"_{at}")
            times = self._number(f"strand_times_{at}") or Fraction(1)
            tex += times * 100_000 / metres if metres else 0
        together = metres_in_100_g(tex) if tex else None
        return _thickness(_("Together about %(metres)s m in 100 g: %(category)s."), together)

    def _numbers(self, stem: str, end: str) -> dict[str, Fraction]:
        names = (f"{stem}{one}{end}" for one in ("ball_grams", "ball_metres", METRES_IN_100_G))
        found = ((name, self._number(name)) for name in names)
        return {name: number for name, number in found if number}

    @property
    def of_pattern(self) -> str:
        """The pattern's own yarn, to compare with."""
        yarn = self.form.pattern.yarn
        metres = round_half_up(metres_in_100_g(yarn.tex))
        words = _("The pattern's yarn is %(name)s, about %(metres)s m in 100 g.")
        return words % {"name": yarn.name, "metres": metres}

    @property
    def credit(self) -> str:
        """The line the publisher of the categories asks for."""
        return CREDIT

    @property
    def wear(self) -> list[str]:
        """How chest and length changed, as far as both their measures can be read."""
        names = {"chest": _("Chest"), "length": _("Length")}
        found = ((names[name], self._measured(name)) for name in MEASURED)
        return [f"{name}: {changed_words(one)}" for name, one in found if one]

    def _measured(self, name: str) -> Measured | None:
        before, after = (self._text(f"{name}_{when}") for when in ("before", "after"))
        try:
            lengths = [parse_length(text, self.form.unit) for text in (before, after)]
            found = Measured(*lengths)
        except AlterationsError:
            return None
        return found if found.is_plausible else None

    @property
    def _shown_in(self) -> ShownIn:
        """The unit she chose, else the one she typed her measures in."""
        told = self._text(SHOWN_IN)
        if told in ("in", "both"):
            return "in" if told == "in" else "both"
        texts = filter(None, map(self._text, ("help_chest", "help_length")))
        units = {parse_length(text, self.form.unit).unit for text in texts}
        return "in" if units == {"in"} and not told else "cm"

    def _text(self, name: str) -> str:
        return str(self.said.get(name) or "").strip()

    def _cm(self, name: str) -> Fraction | None:
        text = self._text(name)
        return parse_length(text, self.form.unit, signed=False).in_cm(1) if text else None

    def _number(self, name: str) -> Fraction | None:
        """A number above zero, where one can be read."""
        try:
            number = parse_number(self._text(name).lower().removesuffix("m").strip())
        except AlterationsError:
            return None
        return number if number > 0 else None


def _unbroken(length: str) -> str:
    """With a space at which no line ends."""
    return length.replace(" ", "\u00a0")


def _thickness(words: str, metres: Fraction | None) -> str:
    if metres is None:
        return ""
    category = _category_words(usual_categories(100_000 / metres))
    usually = _("usually %(category)s") % {"category": category}
    return words % {"metres": round_half_up(metres), "category": usually}


def _category_words(found: Iterable[int]) -> str:
    named = [
        _("category %(number)s, %(name)s") % {"number": number, "name": CATEGORY_NAMES[number]}
        for number in sorted(found)
    ]
    return _(" or ").join(named)

"""What a ball band tells: grams and metres of a ball, metres in 100 g; two make the third."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django.utils.translation import gettext as _

from alterations.rounding import round_half_up
from alterations.units import show_cm
from gallery.contributions.change_fields import numbers_typed

METRES_IN_100_G = "metres_100g"
TENTH = Fraction(1, 10)
# ISO 2947 lets a printed yarn count lie about 2 % beside the exact one.
AS_GOOD_AS_SAME = Fraction(2, 100)


def ball_told(typed: Mapping[str, Any], stem: str, end: str = "") -> dict[str, str]:
    """Grams and metres of one ball as the library's plain fields; 100 g where only metres in 100 g
    are told, and the missing one of the two where one is."""
    grams_name, metres_name = f"ball_grams{end}", f"ball_metres{end}"
    plain = numbers_typed(typed, stem, (grams_name, metres_name))
    per_100 = typed.get(f"{stem}{METRES_IN_100_G}{end}")
    if not per_100 or len(plain) == 2:
        return plain
    if metres_name in plain:
        grams = Fraction(plain[metres_name]) * 100 / Fraction(per_100)
        return {**plain, grams_name: show_cm(grams, TENTH)}
    grams = Fraction(plain.get(grams_name, "100"))
    return {
        grams_name: show_cm(grams, TENTH),
        metres_name: show_cm(grams * Fraction(per_100) / 100, TENTH),
    }


def metres_of_100_g(typed: Mapping[str, Any], stem: str, end: str = "") -> Fraction | None:
    """Metres in 100 g, told or worked out from the ball."""
    plain = ball_told(typed, stem, end)
    if len(plain) < 2:
        return None
    grams, metres = (Fraction(plain[f"{name}{end}"]) for name in ("ball_grams", "ball_metres"))
    return metres * 100 / grams if grams and metres else None


def contradiction(typed: Mapping[str, Any], stem: str, end: str = "") -> str:
    """The sentence where ball and metres in 100 g do not fit each other; else nothing."""
    per_100: Decimal | None = typed.get(f"{stem}{METRES_IN_100_G}{end}")
    grams, metres = (typed.get(f"{stem}{name}{end}") for name in ("ball_grams", "ball_metres"))
    if not per_100 or not grams or not metres:
        return ""
    worked_out = Fraction(metres) * 100 / Fraction(grams)
    if abs(worked_out - Fraction(per_100)) <= AS_GOOD_AS_SAME * worked_out:
        return ""
    return _(
        "A ball of %(grams)s g with %(metres)s m has %(worked_out)s m in 100 g, not %(told)s m. "
        "Please look which is right, or empty one of them."
    ) % {
        "grams": show_cm(Fraction(grams), TENTH),
        "metres": show_cm(Fraction(metres), TENTH),
        "worked_out": round_half_up(worked_out),
        "told": show_cm(Fraction(per_100), TENTH),
    }

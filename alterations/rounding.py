"""How a number becomes a count: every rounding rule of the library, exact and by name.

Counts are worked out with whole numbers and fractions only. 22.5 cm at 2.8 rows/cm is exactly 63;
in binary floats such products can land on 62.999... and flip a tie, so a float is refused here.
"""

from fractions import Fraction
from math import ceil, isqrt

from alterations.errors import ShapingError
from alterations.saying import gettext as _

Exact = int | Fraction


def exact(value: Exact) -> Fraction:
    """The value as a Fraction; a float is refused with TypeError.

    >>> exact(3)
    Fraction(3, 1)
    """
    if type(value) is Fraction:
        return value
    if isinstance(value, bool) or not isinstance(value, int | Fraction):
        raise TypeError(f"Counts are worked out from int or Fraction, not {type(value).__name__}.")
    return Fraction(value)


def round_half_up(value: Exact) -> int:
    """The nearest whole number, halves upwards (Python's own round takes halves to even).

    >>> round_half_up(Fraction(5, 2)), round_half_up(Fraction(-1, 2))
    (3, 0)
    """
    top, bottom = exact(value).as_integer_ratio()
    return (2 * top + bottom) // (2 * bottom)


def nearest_even(value: Exact) -> int:
    """The nearest even number, ties upwards: rows come back to the starting side, pieces halve.

    >>> nearest_even(63), nearest_even(Fraction("62.9"))
    (64, 62)
    """
    top, bottom = exact(value).as_integer_ratio()
    return 2 * ((top + bottom) // (2 * bottom))


def round_up(value: Exact) -> int:
    """The whole number at or above: balls are bought whole."""
    return ceil(exact(value))


def snap_down(target: int, multiple: int, remainder: int) -> int:
    """The largest count of the form multiple·n + remainder that is not above the target.

    Common practice of the trade: an edge only ever loses stitches, the row after it adds them.
    Refuses a target too small to hold one repeat.

    >>> snap_down(94, 3, 2)
    92
    """
    if target <= 0:
        raise ShapingError(_("No stitches would be left; make the piece wider."))
    count = target - ((target - remainder) % multiple)
    if count <= 0:
        raise ShapingError(
            _(
                "%(stitches)s stitches are too few for an edge of %(multiple)s·n + %(remainder)s; "
                "make the piece wider or choose another edge."
            )
            % {"stitches": target, "multiple": multiple, "remainder": remainder}
        )
    return count


def up_to_ten(value: Exact) -> int:
    """The next full ten at or above, for metres of yarn.

    >>> up_to_ten(1197)
    1200
    """
    return 10 * ceil(exact(value) / 10)


def to_step(value: Exact, step: Fraction) -> Fraction:
    """The nearest multiple of a step, halves upwards; for showing, never for storing.

    >>> to_step(Fraction("63.14"), Fraction(1, 2))
    Fraction(63, 1)
    """
    return round_half_up(exact(value) / step) * step


def square_root(value: Exact, digits: int = 15) -> Fraction:
    """The square root cut after so many decimal places, as a Fraction (no float in between).

    >>> square_root(Fraction(9, 4))
    Fraction(3, 2)
    """
    number = exact(value)
    if number < 0:
        raise ValueError("A negative number has no square root here.")
    scale = 10**digits
    return Fraction(
        isqrt(number.numerator * number.denominator * scale * scale),
        number.denominator * scale,
    )

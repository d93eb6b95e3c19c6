"""How thick a yarn usually knits: from metres in 100 g to stitches and a yarn-weight category.

The published categories are ranges of stitches (categories.py); a ball band often tells only metres
and grams. Tightness K = sqrt(tex) / l is commonly 9 to 12 for hand-knitting weights (common
practice); with the middle of it and Munden's constants for washed plain knit (from memory,
unverified), l = sqrt(ks / S) and S = 1.3 w² give the usual stitches. A first word, not a fact.
"""

from fractions import Fraction

from alterations.categories import PER_4_IN, categories_of_stitches
from alterations.errors import UnitError
from alterations.rounding import Exact, exact, square_root
from alterations.saying import gettext as _
from alterations.yarn import MUNDEN_KS

USUAL_TIGHTNESS = Fraction("10.5")
ROWS_TO_STITCHES = Fraction("1.3")  # Munden's kr


def metres_in_100_g(tex: Exact) -> Fraction:
    """Metres in 100 g of a yarn of so many grams per 1000 m.

    >>> float(metres_in_100_g(Fraction(1250, 3)))
    240.0
    """
    if exact(tex) <= 0:
        raise UnitError(_("A yarn weighs something; give grams and metres above zero."))
    return 100_000 / exact(tex)


def usual_stitches(tex: Exact) -> Fraction:
    """Stitches in 10 cm that a yarn usually gives in plain knitting, unrounded.

    >>> round(float(usual_stitches(Fraction(1250, 3))), 1)
    21.0
    """
    if exact(tex) <= 0:
        raise UnitError(_("A yarn weighs something; give grams and metres above zero."))
    per_cm = square_root(MUNDEN_KS["wet"] / ROWS_TO_STITCHES) * USUAL_TIGHTNESS
    return 10 * per_cm / square_root(tex)


def usual_categories(tex: Exact) -> frozenset[int]:
    """The categories such a yarn usually falls into; two where the published ranges overlap.

    >>> sorted(usual_categories(Fraction(100_000, 333))), sorted(usual_categories(500))
    ([2], [4])
    """
    return categories_of_stitches(usual_stitches(tex) * PER_4_IN)

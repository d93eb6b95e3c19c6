"""What the fields of the pattern editor are called, each with a word of help."""

from django.utils.translation import gettext as _

from gallery.series.editor.document import FABRIC, FOLLOW, MEASURE

Labels = dict[str, tuple[str, str]]  # name: its label, a word of help


def of_head() -> Labels:
    return {
        "name": (_("Name of the pattern"), ""),
        "designer": (_("Designed by"), ""),
        "series": (_("Belongs to the series"), ""),
        "garment": (_("What it is"), _("tunic, cardigan, robe …; some call for a caution")),
        "audience": (_("It is for"), ""),
        "even_rows": (_("Row counts"), _("even where the carriage must come back to its side")),
        "note": (_("Before one begins"), ""),
        "making_up": (_("Making up"), ""),
    }


def of_yarn() -> Labels:
    return {
        "name": (_("Yarn"), ""),
        "fibre": (_("Fibre"), _("as 100 % wool")),
        "ball_grams": (_("Grams in a ball"), ""),
        "ball_metres": (_("Metres in a ball"), ""),
        "allowance_percent": (_("Allowance in per cent"), _("seams, edges and swatch; 8 is usual")),
    }


def of_machine() -> Labels:
    return {
        "needles": (_("Needles on the bed"), _("empty for hand needles")),
        "pitch_mm": (_("From needle to needle, mm"), ""),
    }


def of_fabric() -> Labels:
    names = {
        "key": ("", ""),
        "title": (_("Name"), _("the first fabric is the main one")),
        "stitches": (_("Stitches"), ""),
        "rows": (_("Rows"), ""),
        "basis": (_("Counted over"), ""),
        "loop_percent": (_("Yarn in a stitch, %"), _("of the main fabric's; 90 for a rib")),
    }
    return {name: names[name] for name in FABRIC}


def of_piece() -> Labels:
    return {
        "key": ("", ""),
        "title": (_("Name"), ""),
        "make": (_("How many"), _("2 for a pair; by size as 1 1 2 2")),
        "edge": (_("Edge"), _("as K2P1; another one by its repeat, as 3n + 2")),
        "seams": (_("Seam stitches left and right"), _("as 1 1; empty for one at each side")),
        "panels": (_("Panels by size"), _("1, or 2 for halves; as 1 1 2 2")),
        "may_be_halved": (_("May be parted in panels"), ""),
        "words": (_("How it is worked, in your words"), ""),
    }


def of_section() -> Labels:
    return {
        "key": ("", ""),
        "title": (_("Name"), ""),
        "shape": (_("How"), ""),
        "fabric": (_("Fabric"), ""),
        "where": (_("At which edge"), ""),
        "every": (_("Shaped on"), ""),
        "part": (_("Knitters change it as"), _("what they lengthen or widen")),
        "folded": (_("Folded"), ""),
        "seams": (_("Seam stitches, if others"), ""),
    }


def of_follow() -> Labels:
    names = {
        "what": (_("This number"), ""),
        "rule": (_("is worked out as"), ""),
        "of": (_("from"), ""),
    }
    return {name: names[name] for name in FOLLOW}


def of_measure() -> Labels:
    names = {
        "key": ("", ""),
        "title": (_("Name"), ""),
        "of": (_("Measured as"), ""),
        "at": (_("along"), ""),
    }
    return {name: names[name] for name in MEASURE}

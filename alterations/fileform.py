"""The form of a pattern file, in words, for people who write one."""

from alterations.saying import gettext as _
from alterations.saying import gettext_noop

_PARAGRAPHS = (
    gettext_noop("""\
A pattern file is plain text (TOML, UTF-8). Lines that begin with # are remarks.
A list of numbers gives one number for each size, in the order of `sizes`; a single number stands
for all sizes. All counts are those of the whole piece, seam stitches included, also where a size
is worked in two halves.
"""),
    gettext_noop("""\
  format = 1
"""),
    gettext_noop("""\
  [pattern]
  name, designer       the names to be shown
  sizes                names of the sizes, as ["1", "2", "3"]
  to_fit_cm            the body each size fits, in cm
  even_rows            true where rows must be even (the carriage comes back to its side)
  series, note, audience ("adult" or "child"), garment ("tunic", "robe" …: some kinds call for a
                       caution), making_up     may be left out
"""),
    gettext_noop("""\
  [fabrics.KEY]        the first fabric is the main one
  title, stitches, rows, basis ("10cm", "4in" or "nominal")
  loop_percent         yarn in a stitch against the main fabric (90 for a rib)
"""),
    gettext_noop("""\
  [machine]            left out for hand needles
  needles, pitch_mm
"""),
    gettext_noop("""\
  [yarn]
  name, fibre, ball_grams, ball_metres, metres (the published amount), allowance_percent
"""),
    gettext_noop("""\
  [pieces.KEY]         one for each piece: back, front, sleeve …
  title, edge ("none", "hung hem", "K1P1", "K2P1", "K2P2", "K3P3", "K1P1 free", "K2P2 free", or a
  repeat and remainder like [3, 2]), make (how many), panels (1, 2 halves or 3), may_be_halved,
  words (how it is worked)
"""),
    gettext_noop("""\
  [[pieces.KEY.sections]]   from the bottom of the piece to its top
  key, title, fabric
  rows                 0 or left out for a step within one row
  stitches             the count when the section is finished; left out where it does not change
  shape                straight; across (more or fewer within one row); edges (bound off or cast on
                       at the edges); spread (increased or decreased along the edges); held (short
                       rows, with `groups`); neck (`centre` bound off, then `steps` on each side)
  plain_end            plain rows at the end of a spread section
  every                "even rows", "any row" or "carriage side", for a spread section
  folded               true for a hung hem: its rows are worked, half of them measured
  part                 what a person calls it when she changes it: "body length", "sleeve length",
                       "wrist", "body width", "armhole depth", "neck depth", "neck width", and for
                       edges "hem", "cuff", "neckband"
"""),
    gettext_noop("""\
  [[follows]]          what must follow what when a number changes
  what, rule, of       addresses as piece.section.rows or piece.section.stitches; the rules are
                       same, rest, sleeve top, notch, shoulders, one shoulder, neck edge, picked up
                       (a band along rows and bound-off stitches)
"""),
    gettext_noop("""\
  [[measures]]         finished measurements in the order in which they are shown
  key, title, of ("width", "height", "notch", "shoulder", "neck depth"), at (piece.section, …)
"""),
)
FORM = "\n".join(_PARAGRAPHS)


def form_in_words() -> str:
    """The same in the reader's language; the names to be written stay as they are."""
    return "\n".join(map(_, _PARAGRAPHS))

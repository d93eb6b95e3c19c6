"""Doors of the worksheet: a garment, or the pattern as it stands, as instructions to print."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

from alterations.cautions import closing
from alterations.drawing import drawing
from alterations.errors import AlterationsError
from alterations.findings import findings
from alterations.garmentcautions import care_of, cautions_of
from alterations.recalculate import Result, recalculate
from alterations.records import store
from alterations.saying import gettext
from alterations.worksheet import AS_PATTERN, PieceSheet, as_text, worksheet
from gallery.access import is_own, keep_private
from gallery.contributions.models import Contribution
from gallery.exhibition.showing import may_show_words
from gallery.review.whose import series_of
from gallery.series.models import Series

TEXT = "text/plain; charset=utf-8"


@require_safe
def garment_worksheet(request: HttpRequest, public_id: str) -> HttpResponse:
    """A garment's worksheet: to everybody where its numbers may be shown, else to its knitter and
    the teacher."""
    garment = get_object_or_404(
        Contribution.objects.select_related("series", "sheet__version"), public_id=public_id
    )
    is_public = may_show_words(garment)
    if garment.sheet is None or not (is_public or _is_hers(request, garment)):
        raise Http404
    try:
        result = store.result_of(garment.sheet)
    except AlterationsError as trouble:
        facts = {"series": garment.series, "trouble": str(trouble), "garment": garment}
        answer = render(request, "exhibition/worksheet.html", facts)
    else:
        answer = _answer(request, garment.series, result, garment)
    if not is_public:
        return keep_private(answer)
    answer["Cache-Control"] = "no-cache"
    return answer


def _is_hers(request: HttpRequest, garment: Contribution) -> bool:
    """Whether the sender herself is looking, or whoever has the sent garment on the desk."""
    if is_own(request, garment.public_id):
        return True
    return garment.sent_at is not None and series_of(request.user).contains(garment.series)


@require_safe
@cache_control(no_cache=True)
def pattern_worksheet(request: HttpRequest, slug: str) -> HttpResponse:
    """The pattern's own worksheet in one size; the first size where none or an unknown is asked."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    pattern = store.pattern_of(series.pattern_version)
    asked = request.GET.get("size", "")
    size = asked if asked in pattern.size_names else pattern.size_names[0]
    return _answer(request, series, recalculate(pattern, size))


def _answer(
    request: HttpRequest, series: Series, result: Result, garment: Contribution | None = None
) -> HttpResponse:
    sheet = worksheet(result)
    if "text" in request.GET:
        answer = HttpResponse(as_text(sheet, care_of(result)), content_type=TEXT)
        answer["Content-Disposition"] = f'attachment; filename="{series.slug}-worksheet.txt"'
        return answer
    facts = {
        "series": series,
        "garment": garment,
        "sheet": sheet,
        "pieces": [(piece, _drawing(result, sheet.pieces, piece)) for piece in sheet.pieces],
        "findings": findings(result),
        "cautions": cautions_of(result),
        "closing": closing(),
        "as_pattern": gettext(AS_PATTERN),
        "sizes": result.pattern.size_names if garment is None else (),
    }
    return render(request, "exhibition/worksheet.html", facts)


def _drawing(
    result: Result, pieces: tuple[PieceSheet, ...], piece: PieceSheet
) -> SafeString | None:
    """The schematic with the first sheet of a piece; it escapes all it is given."""
    first = next(one for one in pieces if one.key == piece.key)
    return mark_safe(drawing(result, piece.key)) if first is piece else None  # noqa: S308

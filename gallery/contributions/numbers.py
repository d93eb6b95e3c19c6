"""The door that works changes out as one types: numbers in, a piece of the page out."""

from django.forms import BoundField
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_POST

from gallery.access import keep_private
from gallery.contributions.sending import NUMBERS, Sending
from gallery.series.models import Series


@require_POST
def work_out(request: HttpRequest, slug: str) -> HttpResponse:
    """Base and made for what is typed now; nothing is kept, mistakes are named in sentences."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    sending = Sending(series, {}, request.POST, NUMBERS)
    sending.work_out()
    facts = {"sending": sending, "numbers": sending.worked_out, "forms": mistakes(sending)}
    return keep_private(render(request, "contributions/worked_out_live.html", facts))


def mistakes(sending: Sending) -> list[tuple[str, str, str]]:
    """Each mistake in size, tools and changes: the field's id, its name, the sentence."""
    return [
        (_place(form[name]), str(form[name].label), str(sentence))
        for form in (sending.garment, sending.changes)
        for name, sentences in form.errors.items()
        if name in form.fields
        for sentence in sentences
    ]


def _place(field: BoundField) -> str:
    """The id of a field; of a group of radio buttons that of the first one."""
    return f"{field.auto_id}_0" if field.use_fieldset else field.id_for_label

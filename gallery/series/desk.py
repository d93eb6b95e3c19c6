"""Doors of the teacher to her own series: its details and its pattern file."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control

from alterations.fileform import form_in_words
from gallery.access import is_teacher, signed_in
from gallery.series.editor.drafts import drafts_of
from gallery.series.forms import NewSeriesForm, PatternForm, SeriesForm
from gallery.series.models import Series


def own_series(user: AbstractBaseUser | AnonymousUser, slug: str) -> Series:
    """The series with that name if it is hers; else the answer is as for one that is not there."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    if not is_teacher(user, series.teacher_id):
        raise Http404
    return series


@login_required
@cache_control(private=True, no_store=True)
def new_series(request: HttpRequest) -> HttpResponse:
    """Open a series with its pattern file."""
    form = NewSeriesForm(
        request.POST or None,
        request.FILES or None,
        teacher=request.user,
        initial={"pattern": request.GET.get("pattern")},
    )
    if request.method == "POST" and form.is_valid():
        series = form.save()
        messages.success(request, _("The series is set up. This is its call page."))
        return redirect("call", slug=series.slug)
    return render(
        request, "series/new_series.html", {"form": form, "format_words": form_in_words()}
    )


@login_required
@cache_control(private=True, no_store=True)
def series_details(request: HttpRequest, slug: str) -> HttpResponse:
    """Change title, dates and words of a series."""
    series = own_series(request.user, slug)
    form = SeriesForm(request.POST or None, instance=series)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("The changes are kept."))
        return redirect("desk_series", slug=series.slug)
    return render(request, "series/series_details.html", {"series": series, "form": form})


@login_required
@cache_control(private=True, no_store=True)
def pattern_upload(request: HttpRequest, slug: str) -> HttpResponse:
    """Load a new version of the pattern file; garments already sent keep the old one."""
    series = own_series(request.user, slug)
    form = PatternForm(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        version = form.keep_for(series)
        messages.success(
            request, _("Version %(number)s of the pattern is in use.") % {"number": version.number}
        )
        return redirect("pattern_numbers", slug=series.slug)
    facts = {
        "series": series,
        "form": form,
        "version": series.pattern_version,
        "versions": series.pattern_version.pattern.versions.order_by("-number"),
        "draft": drafts_of(signed_in(request)).filter(series=series).first(),
        "format_words": form_in_words(),
    }
    return render(request, "series/pattern_upload.html", facts)

"""Addresses of the pattern's numbers, the short address, help, and the teacher's own series."""

from django.urls import path

from gallery.series import desk, views
from gallery.series.editor import doors, shelf

urlpatterns = [
    path("series/<slug:slug>/qr.svg", views.call_qr, name="call_qr"),
    path("series/<slug:slug>/numbers/", views.pattern_numbers, name="pattern_numbers"),
    path("series/<slug:slug>/pattern.toml", views.pattern_file, name="pattern_file"),
    path("go/<slug:code>/", views.short_address, name="short_address"),
    path("help/", views.help_page, name="help"),
    path("desk/new-series/", desk.new_series, name="new_series"),
    path("desk/series/<slug:slug>/details/", desk.series_details, name="series_details"),
    path("desk/patterns/", shelf.pattern_drafts, name="pattern_drafts"),
    path("desk/patterns/<str:public_id>/", doors.pattern_draft, name="pattern_draft"),
    path("desk/patterns/<str:public_id>/check/", doors.check_pattern, name="check_pattern"),
    path("desk/patterns/<str:public_id>/away/", shelf.throw_away, name="throw_draft_away"),
    path("desk/patterns/<str:public_id>/pattern.toml", doors.draft_file, name="draft_file"),
    path("desk/series/<slug:slug>/pattern/edit/", shelf.edit_pattern, name="edit_pattern"),
    path("desk/series/<slug:slug>/pattern/", desk.pattern_upload, name="pattern_upload"),
]

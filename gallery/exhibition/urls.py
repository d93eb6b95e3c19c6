"""Addresses of the public pages."""

from django.urls import path

from gallery.exhibition import call, objection, views, worksheets

urlpatterns = [
    path("", views.front, name="front"),
    path("privacy/", call.privacy, name="privacy"),
    path("series/<slug:slug>/", call.call, name="call"),
    path("series/<slug:slug>/garments/", views.garments, name="garments"),
    path("garments/<slug:public_id>/", views.garment, name="garment"),
    path(
        "garments/<slug:public_id>/worksheet/",
        worksheets.garment_worksheet,
        name="garment_worksheet",
    ),
    path("series/<slug:slug>/worksheet/", worksheets.pattern_worksheet, name="pattern_worksheet"),
    path("pictures/<slug:public_id>/objection/", objection.objection, name="objection"),
]

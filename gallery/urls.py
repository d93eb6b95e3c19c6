"""All addresses of the site, a room at a time."""

from django.urls import include, path

from gallery.editing import edit_mine
from gallery.erasing import erase_mine
from gallery.health import health, healthz

urlpatterns = [
    path("", include("gallery.exhibition.urls")),
    path("", include("gallery.series.urls")),
    path("", include("gallery.contributions.urls")),
    path("mine/<str:public_id>/change/", edit_mine, name="edit_mine"),
    path("mine/<str:public_id>/erase/", erase_mine, name="erase_mine"),
    path("healthz", healthz, name="healthz"),
    path("desk/health/", health, name="health"),
    path("desk/", include("gallery.review.urls")),
    path("desk/", include("gallery.album.urls")),
]

"""All addresses of the site, a room at a time."""

from django.urls import include, path

urlpatterns = [
    path("", include("gallery.exhibition.urls")),
    path("", include("gallery.series.urls")),
    path("", include("gallery.contributions.urls")),
    path("desk/", include("gallery.review.urls")),
    path("desk/", include("gallery.album.urls")),
]

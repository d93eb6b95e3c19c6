"""All addresses of the site, a room at a time."""

from django.urls import include, path

from gallery.album.slide_to_come import slide_to_come
from gallery.editing import add_picture_mine, cut_mine, edit_mine, whole_mine
from gallery.erasing import erase_mine
from gallery.health import health, healthz

urlpatterns = [
    path("", include("gallery.exhibition.urls")),
    path("", include("gallery.series.urls")),
    path("", include("gallery.contributions.urls")),
    path("mine/<str:public_id>/change/", edit_mine, name="edit_mine"),
    path("mine/<str:public_id>/change/picture/", add_picture_mine, name="add_picture_mine"),
    path("mine/<str:public_id>/pictures/<str:photo_id>/", cut_mine, name="cut_mine"),
    path("mine/<str:public_id>/pictures/<str:photo_id>/whole.jpg", whole_mine, name="whole_mine"),
    path("mine/<str:public_id>/erase/", erase_mine, name="erase_mine"),
    path("healthz", healthz, name="healthz"),
    path("desk/health/", health, name="health"),
    path("desk/", include("gallery.review.urls")),
    path("desk/", include("gallery.album.urls")),
    path("series/<slug:slug>/send/slide.jpg", slide_to_come, name="slide_to_come"),
]

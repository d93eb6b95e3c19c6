"""All addresses of the site, a room at a time."""

from django.conf.urls.i18n import i18n_patterns
from django.urls import include, path

from gallery.album.slide_to_come import slide_to_come
from gallery.editing import add_picture_mine, cut_mine, edit_mine, whole_mine
from gallery.erasing import erase_mine
from gallery.health import health, healthz

# One address for each file and for machines, whatever the language of the page around it.
urlpatterns = [
    path("", include("gallery.exhibition.files")),
    path("healthz", healthz, name="healthz"),
]
# Pages have one address for each language; those of the site's own language name none.
urlpatterns += i18n_patterns(
    path("", include("gallery.exhibition.urls")),
    path("", include("gallery.series.urls")),
    path("", include("gallery.contributions.urls")),
    path("mine/<str:public_id>/change/", edit_mine, name="edit_mine"),
    path("mine/<str:public_id>/change/picture/", add_picture_mine, name="add_picture_mine"),
    path("mine/<str:public_id>/pictures/<str:photo_id>/", cut_mine, name="cut_mine"),
    path("mine/<str:public_id>/pictures/<str:photo_id>/whole.jpg", whole_mine, name="whole_mine"),
    path("mine/<str:public_id>/erase/", erase_mine, name="erase_mine"),
    path("desk/health/", health, name="health"),
    path("desk/", include("gallery.review.urls")),
    path("desk/", include("gallery.album.urls")),
    path("series/<slug:slug>/send/slide.jpg", slide_to_come, name="slide_to_come"),
    prefix_default_language=False,
)

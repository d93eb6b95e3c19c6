"""Addresses of pictures: one for each file, whatever the language of the page around it."""

from django.urls import path

from gallery.exhibition import pictures

urlpatterns = [
    path("pictures/<slug:public_id>/original", pictures.original, name="original"),
    path("pictures/<slug:public_id>/<slug:size>.jpg", pictures.picture, name="picture"),
]

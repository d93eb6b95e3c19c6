"""Addresses of this room (the lead restores them once the library is there)."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []

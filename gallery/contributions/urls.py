"""Addresses of this room."""

from django.urls import path

from gallery.contributions import numbers, own, views

urlpatterns = [
    path("series/<slug:slug>/send/", views.send, name="send"),
    path("series/<slug:slug>/send/numbers/", numbers.work_out, name="work_out"),
    path("series/<slug:slug>/sent/", views.sent, name="sent"),
    path("mine/link/<str:token>/", own.private_link, name="private_link"),
    path("mine/<str:public_id>/", own.mine, name="mine"),
    path("mine/<str:public_id>/permissions/", own.change_permissions, name="change_permissions"),
    path("mine/<str:public_id>/withdraw/", own.withdraw, name="withdraw"),
]

"""Addresses of this room."""

from django.urls import path

from gallery.contributions import (
    cutting,
    draft_links,
    garment_help,
    numbers,
    one_picture,
    own,
    steps,
    views,
)
from gallery.contributions.editing.numbers import work_out_mine
from gallery.contributions.people import doors, said_later

urlpatterns = [
    path("series/<slug:slug>/send/", views.send, name="send"),
    path("series/<slug:slug>/send/numbers/", numbers.work_out, name="work_out"),
    path("series/<slug:slug>/send/step/", steps.check_step, name="check_step"),
    path("series/<slug:slug>/send/picture/", one_picture.add_picture, name="add_picture"),
    path(
        "series/<slug:slug>/send/picture/<str:public_id>/",
        one_picture.picture_deed,
        name="picture_deed",
    ),
    path(
        "series/<slug:slug>/send/picture/<str:public_id>/cut/",
        cutting.cut_picture,
        name="cut_picture",
    ),
    path(
        "series/<slug:slug>/send/picture/<str:public_id>/whole.jpg",
        cutting.whole_picture,
        name="whole_picture",
    ),
    path("series/<slug:slug>/send/garment/", garment_help.garment_live, name="garment_live"),
    path("series/<slug:slug>/send/away/", draft_links.throw_away, name="throw_away"),
    path("go-on/<str:token>/", draft_links.draft_link, name="draft_link"),
    path("series/<slug:slug>/sent/", views.sent, name="sent"),
    path("guardian/link/<str:token>/", doors.guardian_link, name="guardian_link"),
    path("guardian/<str:public_id>/", doors.guardians_page, name="guardian"),
    path("mine/link/<str:token>/", own.private_link, name="private_link"),
    path("mine/lost/", own.lost_link, name="lost_link"),
    path("mine/<str:public_id>/", own.mine, name="mine"),
    path("mine/<str:public_id>/numbers/", work_out_mine, name="work_out_mine"),
    path("mine/<str:public_id>/garment/", garment_help.garment_live_mine, name="garment_live_mine"),
    path("mine/<str:public_id>/people/", said_later.say_people, name="say_people"),
    path("mine/<str:public_id>/permissions/", own.change_permissions, name="change_permissions"),
    path("mine/<str:public_id>/receipt/", own.receipt, name="receipt"),
    path("mine/<str:public_id>/receipt.jsonld", own.receipt_file, name="receipt_file"),
    path("mine/<str:public_id>/everything.zip", own.take_away, name="take_away"),
    path("mine/<str:public_id>/withdraw/", own.withdraw, name="withdraw"),
]

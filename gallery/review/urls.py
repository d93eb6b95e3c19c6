"""Addresses of the desk, all under desk/."""

from django.conf import settings
from django.contrib.auth.views import LogoutView
from django.urls import path

from gallery.review import held, people, views
from gallery.review.forms import SignInForm
from gallery.review.questions import doors as questions
from gallery.review.sign_in import SignIn

sign_in = SignIn.as_view(
    template_name="review/login.html",
    authentication_form=SignInForm,
    redirect_authenticated_user=True,
    # Django would name the site after the address that was asked for.
    extra_context={"site_name": settings.SITE_NAME},
)

urlpatterns = [
    path("", views.desk, name="desk"),
    path("login/", sign_in, name="login"),
    path("logout/", LogoutView.as_view(), name="logout"),
    path("held/", held.held_back, name="held_back"),
    path("held/<str:public_id>/", held.judge_held, name="judge_held"),
    path("series/<slug:slug>/", views.desk_series, name="desk_series"),
    path("garments/<str:public_id>/", views.desk_garment, name="desk_garment"),
    path("garments/<str:public_id>/decide/", views.decide_on, name="decide"),
    path("series/<slug:slug>/questions/", questions.series_questions, name="series_questions"),
    path(
        "series/<slug:slug>/questions/<str:purpose>/ask/",
        questions.ask_again_page,
        name="ask_again",
    ),
    path("garments/<str:public_id>/told/", questions.told, name="told"),
    path("garments/<str:public_id>/people/", people.people_seen, name="people_seen"),
    path("garments/<str:public_id>/objection/", people.answer_objection, name="answer_objection"),
]

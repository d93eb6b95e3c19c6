"""The teacher signs in."""

from django.contrib.auth.views import LoginView
from django.http import HttpResponse

from gallery.review.forms import SignInForm


class SignIn(LoginView):
    """As Django has it; a session that began as a sender's gets the teacher's shorter life."""

    def form_valid(self, form: SignInForm) -> HttpResponse:  # type: ignore[override]
        answer = super().form_valid(form)
        self.request.session.set_expiry(None)
        return answer

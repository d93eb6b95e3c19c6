"""Forms of the album: its title, pace, look and music, the words and the place of a slide."""

from pathlib import Path
from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.conf import settings
from django.core.files.uploadedfile import TemporaryUploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.album.film import music
from gallery.album.film.plan import Music
from gallery.album.gather import music_vault
from gallery.album.models import LONGEST_SECONDS, SHORTEST_SECONDS, Album
from gallery.contributions.writing import refuse_control_in_lines

MOST_WORDS = 600


class AlbumForm(forms.ModelForm):
    """Title, pace, look and music of the film."""

    music = forms.FileField(
        required=False,
        label=gettext_lazy("Music (optional)"),
        help_text=gettext_lazy(
            "MP3, M4A, WAV, FLAC or Ogg, 40 MB at most. Only what you may publish."
        ),
    )
    no_music = forms.BooleanField(required=False, label=gettext_lazy("Without music after all"))
    helper = FormHelper()
    helper.form_tag = False

    class Meta:
        model = Album
        fields = ["title", "seconds_per_slide", "look", "music", "music_licence", "no_music"]
        labels = {
            "title": gettext_lazy("Title of the film"),
            "seconds_per_slide": gettext_lazy("Seconds a photo stands"),
            "look": gettext_lazy("Look"),
            "music_licence": gettext_lazy("Why this music may be used"),
        }
        help_texts = {
            "music_licence": gettext_lazy(
                "Who made it and under which licence; it goes into the pack."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not self.instance.music_sha256:
            del self.fields["no_music"]

    def clean_seconds_per_slide(self) -> Any:
        seconds = self.cleaned_data["seconds_per_slide"]
        if not SHORTEST_SECONDS <= seconds <= LONGEST_SECONDS:
            bounds = {"least": SHORTEST_SECONDS, "most": LONGEST_SECONDS}
            raise forms.ValidationError(
                _("Choose between %(least)s and %(most)s seconds.") % bounds
            )
        return seconds

    def clean_music(self) -> TemporaryUploadedFile | None:
        sent = self.cleaned_data["music"]
        if not isinstance(sent, TemporaryUploadedFile):
            return None
        if (sent.size or 0) > settings.UPLOAD_MAX_PICTURE_BYTES:
            raise forms.ValidationError(
                _("This file is larger than 40 MB. Save the music as MP3 or M4A and choose that.")
            )
        path = Path(sent.temporary_file_path())
        trouble = music.problem(Music(path))
        if trouble:
            raise forms.ValidationError(trouble.replace(path.name, sent.name or ""))
        return sent

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("music") and not cleaned.get("music_licence", "").strip():
            self.add_error("music_licence", _("Say why this music may be used."))
        return cleaned

    def keep_music(self) -> None:
        """Keep the file before anything is written: copying it may take long.

        Raises VaultError where the disk refuses.
        """
        sent = self.cleaned_data["music"]
        if sent:
            kept = music_vault().put_file(Path(sent.temporary_file_path()))
            self.instance.music_sha256, self.instance.music_name = kept.sha256, sent.name[:255]
        elif self.cleaned_data.get("no_music"):
            self.instance.music_sha256 = self.instance.music_name = ""


class SlideForm(forms.Form):
    """The words of one slide and the version of the album they were written for."""

    title = forms.CharField(max_length=200, required=False, validators=[refuse_control_in_lines])
    words = forms.CharField(
        max_length=MOST_WORDS,
        required=False,
        validators=[refuse_control_in_lines],
        error_messages={
            "max_length": gettext_lazy(
                "At most %(limit_value)d letters fit on a slide; these are %(show_value)d."
            )
        },
    )
    version = forms.IntegerField(min_value=0)

    def clean_words(self) -> str:
        words: str = self.cleaned_data["words"]
        return words.replace("\r\n", "\n")


class PlaceForm(forms.Form):
    """Where a slide goes."""

    place = forms.IntegerField()
    version = forms.IntegerField(min_value=0)


class VersionForm(forms.Form):
    """Which version of the album a button was pressed on."""

    version = forms.IntegerField(min_value=0)


class TitleForm(forms.ModelForm):
    """Begin an album."""

    helper = FormHelper()
    helper.form_tag = False

    class Meta:
        model = Album
        fields = ["title"]
        labels = {"title": gettext_lazy("Title of the film")}

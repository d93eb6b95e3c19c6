"""Forms of the album: its title and pace, its music, the words of a slide."""

from pathlib import Path
from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.core.files.uploadedfile import TemporaryUploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.album.film import music
from gallery.album.film.plan import Music
from gallery.album.gather import music_vault
from gallery.album.models import Album


class AlbumForm(forms.ModelForm):
    """Title, pace and music of the film."""

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
        fields = ["title", "seconds_per_slide", "music", "music_licence", "no_music"]
        labels = {
            "title": gettext_lazy("Title of the film"),
            "seconds_per_slide": gettext_lazy("Seconds a photo stands"),
            "music_licence": gettext_lazy("Why this music may be used"),
        }
        help_texts = {
            "music_licence": gettext_lazy(
                "Who made it and under which licence; it goes into the pack."
            ),
        }

    def clean_seconds_per_slide(self) -> Any:
        seconds = self.cleaned_data["seconds_per_slide"]
        if not 2 <= seconds <= 30:
            raise forms.ValidationError(_("Choose between 2 and 30 seconds."))
        return seconds

    def clean_music(self) -> Any:
        sent = self.cleaned_data["music"]
        if not isinstance(sent, TemporaryUploadedFile):
            return None
        trouble = music.problem(Music(Path(sent.temporary_file_path())))
        if trouble:
            raise forms.ValidationError(trouble)
        return sent

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("music") and not cleaned.get("music_licence", "").strip():
            self.add_error("music_licence", _("Say why this music may be used."))
        return cleaned

    def save(self, commit: bool = True) -> Album:
        sent = self.cleaned_data["music"]
        if sent:
            kept = music_vault().put_file(Path(sent.temporary_file_path()))
            self.instance.music_sha256, self.instance.music_name = kept.sha256, sent.name[:255]
        elif self.cleaned_data["no_music"]:
            self.instance.music_sha256 = self.instance.music_name = ""
        return super().save(commit)


class SlideForm(forms.Form):
    """The words of one slide and the version of the album they were written for."""

    title = forms.CharField(max_length=200, required=False)
    words = forms.CharField(max_length=600, required=False)
    version = forms.IntegerField(min_value=0)


class PlaceForm(forms.Form):
    """Where a slide goes."""

    place = forms.IntegerField()
    version = forms.IntegerField(min_value=0)

"""Arriving files: written to disk as they come, cut off where they grow too large."""

from typing import Any

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.core.files.uploadhandler import TemporaryFileUploadHandler


class MeasuredUpload(TemporaryFileUploadHandler):
    """Keeps each file up to the limit and one byte more; the rest of a too large one is dropped.

    The form then refuses that file by its size, in words beside its field, and keeps the others.
    """

    def new_file(self, *args: Any, **kwargs: Any) -> None:
        super().new_file(*args, **kwargs)
        self.room = settings.UPLOAD_MAX_PICTURE_BYTES + 1
        self.received = 0

    def receive_data_chunk(self, raw_data: bytes, start: int) -> None:
        kept = raw_data[: max(self.room - self.received, 0)]
        self.received += len(kept)
        if kept:
            super().receive_data_chunk(kept, start)

    def file_complete(self, file_size: int) -> UploadedFile | None:
        return super().file_complete(min(file_size, self.room))

"""Files on their way in: no more of one is taken than a photo may have."""

from __future__ import annotations

from typing import Any

from django.core.files.uploadhandler import FileUploadHandler

from fitting.photos import MOST_BYTES


class BoundedUpload(FileUploadHandler):
    """Let a little more through than is allowed, so that the form can say why not.

    The rest is read and dropped: the other fields of the page arrive whole.
    """

    def new_file(self, *args: Any, **kwargs: Any) -> None:
        """Count each file by itself."""
        super().new_file(*args, **kwargs)
        self.taken = 0

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes | None:
        """Pass a piece on, until it is enough."""
        if self.taken > MOST_BYTES:
            return None
        self.taken += len(raw_data)
        return raw_data

    def file_complete(self, file_size: int) -> None:
        """Leave the file to the handlers that keep it."""

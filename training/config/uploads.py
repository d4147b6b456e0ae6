"""Files that people send: what is longer than any page accepts is counted, and not written anywhere."""

from django.core.files.uploadhandler import TemporaryFileUploadHandler

from training.pictures import MOST_BYTES


class BoundedUploadHandler(TemporaryFileUploadHandler):
    """Writes a file to a temporary one, no more of it than is accepted anywhere; its size says how long it was."""

    def receive_data_chunk(self, raw_data: bytes, start: int) -> None:
        """Keep a piece that begins within the bound, and pass over the others."""
        if start <= MOST_BYTES:
            super().receive_data_chunk(raw_data, start)

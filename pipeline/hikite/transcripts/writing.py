"""A transcript to the text of a file."""

from hikite.errors import TranscriptError
from hikite.records import Transcript
from hikite.transcripts.formats import FORMATS


def write(transcript: Transcript, format: str) -> str:
    """The text of a file in ``format``, a name in ``FORMATS``; its module tells what it carries.

    TranscriptError for any other name.
    """
    for form in FORMATS:
        if form.name == format:
            return form.write(transcript)
    known = ", ".join(form.name for form in FORMATS)
    raise TranscriptError(f"no format is named {format!r}; known are {known}")

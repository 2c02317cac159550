"""The bout record as files, one file a format, and in words."""

from hikite.outputs.formats import FORMATS, Format
from hikite.outputs.records import record_of

__all__ = ["FORMATS", "Format", "record_of"]

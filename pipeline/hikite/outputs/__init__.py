"""The bout record as files, one file a format, and in words."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hikite.outputs.formats import FORMATS, Format
    from hikite.outputs.records import record_of

__all__ = ["FORMATS", "Format", "record_of"]


def __getattr__(name: str) -> object:
    """What is exported, imported once it is asked for: `outputs.phrases` alone needs nothing of the path."""
    if name in ("FORMATS", "Format"):
        from hikite.outputs import formats

        return getattr(formats, name)
    if name == "record_of":
        from hikite.outputs.records import record_of

        return record_of
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")

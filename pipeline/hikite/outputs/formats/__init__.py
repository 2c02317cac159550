"""What a record can be written as, one file a format."""

from hikite.outputs.formats import (
    captions,
    chapters,
    document,
    lines,
    markdown,
    moments_list,
    spans,
    table,
    timeline,
)
from hikite.outputs.formats.format import Format

FORMATS: tuple[Format, ...] = (
    lines.FORMAT,
    document.FORMAT,
    table.FORMAT,
    markdown.FORMAT,
    chapters.FORMAT,
    moments_list.FORMAT,
    captions.FORMAT,
    spans.FORMAT,
    timeline.FORMAT,
)

__all__ = ["FORMATS", "Format"]

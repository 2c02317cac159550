"""What a record can be written as, one file a format."""

from hikite.outputs.formats import (
    annotations,
    captions,
    chapters,
    columns,
    cue_data,
    document,
    dublin_core,
    lines,
    markdown,
    moments_list,
    pbcore,
    schema_org,
    spans,
    table,
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
    annotations.FORMAT,
    schema_org.FORMAT,
    cue_data.FORMAT,
    pbcore.FORMAT,
    dublin_core.FORMAT,
    columns.FORMAT,
)

__all__ = ["FORMATS", "Format"]

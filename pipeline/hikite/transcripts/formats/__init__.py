"""The file formats, in the order in which a file's text is held against them."""

from hikite.transcripts.formats import asr_json, webvtt

FORMATS = (
    webvtt.FORMAT,
    asr_json.FORMAT,
)

__all__ = ["FORMATS"]

"""The file formats, in the order in which a file's text is held against them."""

from hikite.transcripts.formats import asr_json, ctm, plain, subrip, ttml, webvtt

FORMATS = (
    webvtt.FORMAT,
    ttml.FORMAT,
    asr_json.FORMAT,
    subrip.FORMAT,
    ctm.FORMAT,
    plain.FORMAT,
)

__all__ = ["FORMATS"]

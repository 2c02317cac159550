"""Names for recordings and moments that hold outside of this machine."""

import base64
from urllib.parse import quote, urldefrag

from hikite.outputs.entries import BoutRecord

ENTRY_TERMS = "urn:hikite:entry:1.0#"
"""Names of an entry's own keys in linked data; the number is the schema's version."""


def hash_name(sha256: str) -> str:
    """The ``ni`` name of the file with this hash (IETF RFC 6920, section 3)."""
    digest = base64.urlsafe_b64encode(bytes.fromhex(sha256)).decode().rstrip("=")
    return f"ni:///sha-256;{digest}"


def media_name(record: BoutRecord) -> str:
    """What the times are times of: the bout sheet's address, else the name of the transcript read."""
    return _uri(record.address) if record.address else hash_name(record.sha256)


def fragment(start_ms: int, end_ms: int) -> str:
    """A stretch of time as W3C Media Fragments URI 1.0 writes it: ``t=12.5,14.25``."""
    return f"t={_seconds(start_ms)},{_seconds(max(end_ms, start_ms + 1))}"


def with_time(before: str, start_ms: int, end_ms: int) -> str:
    """A fragment with a stretch of time in it; a time that was there ``before`` gives way."""
    others = [part for part in before.split("&") if part and not part.startswith("t=")]
    return "&".join([*others, fragment(start_ms, end_ms)])


def moment_address(address: str, start_ms: int, end_ms: int) -> str:
    """The address of a stretch of the media."""
    plain, before = urldefrag(_uri(address))
    return f"{plain}#{with_time(before, start_ms, end_ms)}"


def seconds(ms: int) -> int | float:
    """Seconds for JSON, whole where they are."""
    return ms // 1000 if ms % 1000 == 0 else ms / 1000


def _seconds(ms: int) -> str:
    return f"{ms / 1000:.3f}".rstrip("0").rstrip(".")


def _uri(address: str) -> str:
    """The address without signs that no URI has (IETF RFC 3986, appendix A); what is escaped stays so."""
    return quote(address, safe=":/?#[]@!$&'()*+,;=%")

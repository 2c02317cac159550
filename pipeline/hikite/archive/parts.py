"""What the stages handed on, packed to be kept and unpacked without loss."""

import zlib

from pydantic import ConfigDict, TypeAdapter

from hikite.records import Ledger, Mention, Recording, Talk, Testimony, Transcript

Parts = dict[str, bytes]
"""By stage zlib-compressed JSON; values that are a type's defaults are left out of it."""

_MENTIONS = TypeAdapter(tuple[Mention, ...], config=ConfigDict(defer_build=True))


def pack(recording: Recording) -> Parts:
    """The five stages of a recording."""
    return {
        "transcript": _packed(recording.transcript),
        "talk": _packed(recording.talk),
        "mentions": zlib.compress(_MENTIONS.dump_json(recording.mentions, exclude_defaults=True)),
        "testimony": _packed(recording.testimony),
        "ledger": _packed(recording.ledger),
    }


def unpack(parts: Parts, lexicon: str) -> Recording:
    """The recording that was packed; ``lexicon`` is the version of the terms it was read with."""
    return Recording(
        transcript=unpack_transcript(parts),
        talk=Talk.model_validate_json(zlib.decompress(parts["talk"])),
        mentions=_MENTIONS.validate_json(zlib.decompress(parts["mentions"])),
        testimony=Testimony.model_validate_json(zlib.decompress(parts["testimony"])),
        ledger=Ledger.model_validate_json(zlib.decompress(parts["ledger"])),
        lexicon=lexicon,
    )


def unpack_transcript(parts: Parts) -> Transcript:
    """The timed text alone."""
    return Transcript.model_validate_json(zlib.decompress(parts["transcript"]))


def _packed(stage: Transcript | Talk | Testimony | Ledger) -> bytes:
    return zlib.compress(stage.model_dump_json(exclude_defaults=True).encode())

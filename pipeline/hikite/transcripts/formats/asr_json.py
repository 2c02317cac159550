"""General speech-recognition JSON: segments with ``start``, ``end`` and ``text``, and words with times.

Times are seconds. Also read: a bare list of segments, and words alone, in a list or under a key.
"""

import json
import re
from collections.abc import Iterator
from typing import NamedTuple

from hikite.errors import TranscriptError
from hikite.records import Cue, Mending, Transcript
from hikite.transcripts.aligning import aligned, joined
from hikite.transcripts.drafts import Draft, Format, Piece, Rough, clean, pieces_of
from hikite.transcripts.pauses import cut_at_pauses

_OPENING = re.compile(r'\s*(?:\{\s*["}]|\[\s*[{\]])')
_SPACE = re.compile(r"[ \t\n\r]*")
_LIST_KEYS = ("segments", "words", "result")
_WORD_KEYS = ("word", "text")
_TRUST_KEYS = ("probability", "confidence", "conf", "score")
_FARTHEST_S = 1e7


class _Item(NamedTuple):
    """One JSON object of a list with the file and line it begins on."""

    fields: dict[str, object]
    file: str
    line: int


def _recognises(text: str) -> bool:
    return _OPENING.match(text) is not None


def _parse(text: str, file: str) -> Rough:
    try:
        head, lists = _top(text, file)
    except json.JSONDecodeError as error:
        raise TranscriptError(f"broken JSON: {error.msg}", file=file, line=error.lineno) from None
    except (RecursionError, ValueError) as error:
        raise TranscriptError(f"JSON beyond reading: {str(error)[:80]}", file=file) from None
    language = head.get("language")
    named = language if isinstance(language, str) and language else None
    items = lists.get("segments") or lists.get("result") or lists.get("words")
    if items is None:
        raise TranscriptError("JSON without a list of segments or words", file=file, line=1)
    mendings: list[Mending] = []
    if any("word" in item.fields and "words" not in item.fields for item in items[:1]):
        words = (
            (piece, item.line, _string(item, "speaker")) for item in items for piece in _timed_word(item)
        )
        return Rough(cut_at_pauses(words), mendings, named)
    return Rough([draft for item in items for draft in _segment(item, mendings)], mendings, named)


def _top(text: str, file: str) -> tuple[dict[str, object], dict[str, list[_Item]]]:
    """The top level's plain values, and its lists of objects with their lines."""
    decoder = json.JSONDecoder(parse_constant=lambda name: None)
    at = _past_space(text, 0)
    if text[at] == "[":
        items, at = _items(text, at, decoder, file)
        _expect_end(text, at)
        return {}, {"segments": items}
    head: dict[str, object] = {}
    lists: dict[str, list[_Item]] = {}
    at = _past_space(text, at + 1)
    while not text.startswith("}", at):
        key, at = decoder.raw_decode(text, at)
        if not isinstance(key, str):
            raise json.JSONDecodeError("a name was expected", text, at)
        at = _past_space(text, _past(text, at, ":"))
        if key in _LIST_KEYS and text.startswith("[", at):
            lists[key], at = _items(text, at, decoder, file)
        else:
            head[key], at = decoder.raw_decode(text, at)
        at = _past_space(text, at)
        if not text.startswith("}", at):
            at = _past_space(text, _past(text, at, ","))
    _expect_end(text, at + 1)
    return head, lists


def _items(text: str, at: int, decoder: json.JSONDecoder, file: str) -> tuple[list[_Item], int]:
    """The objects of the list that opens at ``at``, and where the list ends."""
    items: list[_Item] = []
    line, counted = text.count("\n", 0, at) + 1, at
    at = _past_space(text, at + 1)
    while not text.startswith("]", at):
        line, counted = line + text.count("\n", counted, at), at
        fields, at = decoder.raw_decode(text, at)
        if not isinstance(fields, dict):
            raise TranscriptError("a list of objects was expected", file=file, line=line)
        items.append(_Item(fields, file, line))
        at = _past_space(text, at)
        if not text.startswith("]", at):
            at = _past_space(text, _past(text, at, ","))
    return items, at + 1


def _past_space(text: str, at: int) -> int:
    found = _SPACE.match(text, at)
    return found.end() if found else at


def _past(text: str, at: int, mark: str) -> int:
    at = _past_space(text, at)
    if not text.startswith(mark, at):
        raise json.JSONDecodeError(f"{mark!r} was expected", text, at)
    return at + 1


def _expect_end(text: str, at: int) -> None:
    if _past_space(text, at) < len(text):
        raise json.JSONDecodeError("text after the end", text, at)


def _segment(item: _Item, mendings: list[Mending]) -> list[Draft]:
    words = item.fields.get("words") or []
    if not isinstance(words, list) or not all(isinstance(word, dict) for word in words):
        raise TranscriptError("words that are not a list of objects", file=item.file, line=item.line)
    spoken = [piece for word in words for piece in _word(_Item(word, item.file, item.line))]
    text = _string(item, "text")
    if text is None and not spoken:
        raise TranscriptError("a segment without text", file=item.file, line=item.line)
    pieces = joined(spoken) if text is None else pieces_of(text)
    if text is not None and spoken:
        timed = aligned(" ".join(piece.text for piece in pieces), spoken)
        if not timed and pieces:
            problem = "words that do not add up to the segment's text; their times are left out"
            mendings.append(Mending(file=item.file, line=item.line, problem=problem))
        pieces = timed or pieces
    start, end = _milliseconds(item, "start"), _milliseconds(item, "end")
    if start is None:
        start = next((piece.start_ms for piece in spoken if piece.start_ms is not None), None)
    if end is None:
        end = next((piece.end_ms for piece in reversed(spoken) if piece.end_ms is not None), None)
    if start is None:
        raise TranscriptError("a segment without a start", file=item.file, line=item.line)
    label = item.fields.get("id")
    label = str(label) if isinstance(label, int) and not isinstance(label, bool) else _string(item, "id")
    speaker, settings = _string(item, "speaker"), _string(item, "settings")
    return [Draft(pieces, start, end, item.line, label, speaker, settings)]


def _word(item: _Item) -> Iterator[Piece]:
    """The pieces of one word object; a word with spaces inside is several, without times between them."""
    text = next((text for key in _WORD_KEYS if (text := _string(item, key, keep=True)) is not None), None)
    if text is None:
        raise TranscriptError("a word without text", file=item.file, line=item.line)
    start, end = _milliseconds(item, "start"), _milliseconds(item, "end")
    trust = next((item.fields[key] for key in _TRUST_KEYS if key in item.fields), None)
    probability = float(trust) if isinstance(trust, int | float) and 0 <= trust <= 1 else None
    parts = text.split()
    for at, part in enumerate(parts):
        last = at == len(parts) - 1
        spaced = at > 0 or text[0].isspace()
        yield Piece(part, None if at else start, end if last else None, probability, spaced)


def _timed_word(item: _Item) -> Iterator[Piece]:
    """A word outside of any segment: it needs times of its own, and a space stands in front."""
    for piece in _word(item):
        if piece.start_ms is None or piece.end_ms is None:
            raise TranscriptError("a word without times", file=item.file, line=item.line)
        yield piece._replace(spaced=True)


def _string(item: _Item, key: str, *, keep: bool = False) -> str | None:
    """A text field; ``keep`` leaves the spaces around it."""
    value = item.fields.get(key)
    if value is None:
        return None
    if not isinstance(value, str):
        raise TranscriptError(f"{key} is not a text", file=item.file, line=item.line)
    value = clean(value)
    return value if keep else " ".join(value.split()) or None


def _milliseconds(item: _Item, key: str) -> int | None:
    value = item.fields.get(key)
    if value is None:
        return None
    try:
        seconds = (
            float(value) if isinstance(value, int | float | str) and not isinstance(value, bool) else None
        )
    except (ValueError, OverflowError):
        seconds = None
    if seconds is None or not abs(seconds) <= _FARTHEST_S:
        raise TranscriptError(f"{key} is not a time in seconds", file=item.file, line=item.line)
    return round(seconds * 1000)


def _write(transcript: Transcript) -> str:
    head = json.dumps({"language": transcript.language}, ensure_ascii=False)[1:-1]
    segments = ",\n".join(json.dumps(_fields(cue), ensure_ascii=False) for cue in transcript.cues)
    opening = f"{head}, " if transcript.language else ""
    return f'{{{opening}"segments": [\n{segments}\n]}}\n'


def _fields(cue: Cue) -> dict[str, object]:
    fields: dict[str, object] = {
        "id": cue.label,
        "speaker": cue.speaker,
        "settings": cue.settings,
        "start": cue.start_ms / 1000,
        "end": cue.end_ms / 1000,
        "text": cue.text,
    }
    if any(word.measured or word.probability is not None for word in cue.words):
        fields["words"] = [
            {
                "word": cue.text[before : word.stop],
                **({"start": word.start_ms / 1000, "end": word.end_ms / 1000} if word.measured else {}),
                **({} if word.probability is None else {"probability": word.probability}),
            }
            for before, word in zip((0, *(word.stop for word in cue.words)), cue.words, strict=False)
        ]
    return {key: value for key, value in fields.items() if value is not None}


FORMAT = Format("asr-json", _recognises, _parse, _write)

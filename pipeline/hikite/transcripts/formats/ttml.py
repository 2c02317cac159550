"""TTML and IMSC text: paragraphs and spans with times, agents and line breaks (W3C TTML2, IMSC 1.2).

Own reading over the standard expat parser, without document types and so without entities of a file's own:
the libraries drop agents and line numbers.
"""

import re
from html import escape
from typing import NamedTuple
from xml.parsers import expat

from hikite.errors import TranscriptError
from hikite.records import Cue, Transcript
from hikite.transcripts.drafts import Draft, Format, Rough, clean
from hikite.transcripts.heard import Heard
from hikite.transcripts.stamps import clock, clock_ms

_OPENING = re.compile(r"\s*<(?:[?!]|(?:[\w.-]+:)?tt[\s>/])")
# Hours and a metric are the standard's; files in use leave them out.
_CLOCK = re.compile(
    r"(?:([0-9]{1,6}):)?([0-9]{1,2}):([0-9]{2})(?:\.([0-9]{1,12})|:([0-9]{2,4})(?:\.([0-9]{1,4}))?)?$"
)
_OFFSET = re.compile(r"([0-9]{1,12}(?:\.[0-9]{1,12})?)(h|m|s|ms|f|t|)$")
_RATE = re.compile(r"[1-9][0-9]{0,8}$")
_LABEL = re.compile(r"[A-Za-z_][\w.-]{0,200}$", re.ASCII)
_CONTENT = ("tt", "body", "div", "p", "span", "br")
_RUBY_ASIDES = ("text", "textContainer", "delimiter")
_HEAD = '<tt xmlns="http://www.w3.org/ns/ttml" xmlns:ttm="http://www.w3.org/ns/ttml#metadata"'


class _Open(NamedTuple):
    """An open element: when it is active, what its children inherit, and the words heard before it."""

    name: str
    start_ms: int = 0
    end_ms: int | None = None
    timed: bool = False
    sequential: bool = False
    hidden: bool = False
    speaker: str | None = None
    words_before: int = 0


class _Reading:
    """One file being read: the open elements, the paragraph under way and what was found so far."""

    def __init__(self, file: str) -> None:
        self.drafts: list[Draft] = []
        self.language: str | None = None
        self._file = file
        self._open: list[_Open] = []
        self._cursors: list[int] = []
        self._frames, self._subframes, self._ticks = 30.0, 1.0, 1.0
        self._agents: dict[str, str] = {}
        self._agent: str | None = None
        self._heard: Heard | None = None
        self._draft: Draft | None = None
        self._depth = 0
        self._times: list[int] = []
        self._parser = expat.ParserCreate(namespace_separator=" ")
        self._parser.buffer_text = True
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._text
        self._parser.StartDoctypeDeclHandler = self._doctype

    def parse(self, text: str) -> None:
        """Read the whole text."""
        try:
            self._parser.Parse(text, True)
        except expat.ExpatError as error:
            raise self._error(f"broken XML: {expat.ErrorString(error.code)}", error.lineno) from None

    def _error(self, problem: str, line: int | None = None) -> TranscriptError:
        return TranscriptError(problem, file=self._file, line=line or self._parser.CurrentLineNumber)

    def _doctype(self, name: str, system: str | None, public: str | None, internal: bool) -> None:
        raise self._error("XML with a document type, which is not read: it could pull in or blow up entities")

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        name = tag.rpartition(" ")[2]
        given = {key.rpartition(" ")[2]: value for key, value in attributes.items()}
        if not self._open:
            if name != "tt":
                raise self._error(f"XML, but not TTML: its root is {name[:40]!r}")
            self.language = given.get("lang") or None
            self._rates(given)
        element = self._element(name, given)
        if name == "agent":
            self._agent = given.get("id")
        elif name == "br" and self._heard:
            self._heard.hear("\n")
        elif name == "p" and self._heard is None and not element.hidden:
            label = clean(given.get("id", "")) or None
            line = self._parser.CurrentLineNumber
            self._draft = Draft((), element.start_ms, element.end_ms, line, label)
            self._heard, self._depth, self._times = Heard(element.speaker), len(self._open), []
        elif self._heard:
            self._heard.speaker = element.speaker
            if element.timed:
                self._heard.stamp(element.start_ms)
                self._times.append(element.start_ms)
        self._open.append(element)
        self._cursors.append(element.start_ms)

    def _element(self, name: str, given: dict[str, str]) -> _Open:
        """The element with its time: from the parent's start, or in a sequence from the sibling's end."""
        parent = self._open[-1] if self._open else _Open("")
        base = self._cursors[-1] if parent.sequential else parent.start_ms
        begin, end, length = (self._time(given.get(key)) for key in ("begin", "end", "dur"))
        start = base + (begin or 0)
        ends = [parent.end_ms] if parent.end_ms is not None else []
        ends += [base + end] if end is not None else []
        ends += [start + length] if length is not None else []
        agent = given.get("agent", "").split()
        return _Open(
            name=name,
            start_ms=start,
            end_ms=min(ends, default=None),
            timed=any(key is not None for key in (begin, end, length)),
            sequential=given.get("timeContainer") == "seq",
            hidden=parent.hidden or name not in _CONTENT or given.get("ruby") in _RUBY_ASIDES,
            speaker=self._agents.get(agent[0], agent[0]) if agent else parent.speaker,
            words_before=self._heard.count if self._heard else 0,
        )

    def _end(self, tag: str) -> None:
        element = self._open.pop()
        self._cursors.pop()
        if self._cursors and element.end_ms is not None:
            self._cursors[-1] = element.end_ms
        if element.name == "agent":
            self._agent = None
        if self._heard is None or self._draft is None:
            return
        if len(self._open) == self._depth:
            self._close(element)
            return
        self._heard.speaker = self._open[-1].speaker
        if element.timed and element.end_ms is not None:
            self._times.append(element.end_ms)
            if self._heard.count > element.words_before:
                self._heard.stamp_after(element.end_ms)

    def _close(self, paragraph: _Open) -> None:
        """The paragraph is whole; where it has no time of its own, its spans tell when it is said."""
        assert self._heard is not None
        assert self._draft is not None
        draft = self._draft
        if self._times and not paragraph.timed:
            ends = max(self._times) if max(self._times) > min(self._times) else draft.end_ms
            draft = draft._replace(start_ms=min(self._times), end_ms=ends)
        self.drafts += self._heard.drafts(draft)
        self._heard, self._draft = None, None

    def _text(self, text: str) -> None:
        if self._agent is not None and self._open[-1].name == "name":
            self._agents[self._agent] = " ".join((self._agents.get(self._agent, "") + clean(text)).split())
        elif self._heard is not None and not self._open[-1].hidden:
            self._heard.hear(text.replace("\n", " "))

    def _rates(self, given: dict[str, str]) -> None:
        for key in ("frameRate", "subFrameRate", "tickRate"):
            if key in given and not _RATE.match(given[key]):
                raise self._error(f"{key} is not a whole number above 0")
        factors = given.get("frameRateMultiplier", "1 1").replace(":", " ").split()
        if len(factors) != 2 or not all(map(_RATE.match, factors)):
            raise self._error("frameRateMultiplier is not two whole numbers above 0")
        self._frames = int(given.get("frameRate", 30)) * int(factors[0]) / int(factors[1])
        self._subframes = float(given.get("subFrameRate", 1))
        frame_ticks = self._frames * self._subframes if "frameRate" in given else 1.0
        self._ticks = float(given.get("tickRate", frame_ticks))

    def _time(self, written: str | None) -> int | None:
        """Milliseconds of a time expression (TTML2, section 12.3.1)."""
        if written is None:
            return None
        if found := _CLOCK.match(written.strip()):
            hours, minutes, seconds, fraction, frames, subframes = found.groups()
            part = (int(frames or 0) + int(subframes or 0) / self._subframes) / self._frames
            return clock_ms(hours, minutes, seconds, fraction) + round(part * 1000)
        if found := _OFFSET.match(written.strip()):
            per_second = {
                "h": 1 / 3600,
                "m": 1 / 60,
                "s": 1,
                "": 1,
                "ms": 1000,
                "f": self._frames,
                "t": self._ticks,
            }
            return round(float(found[1]) / per_second[found[2]] * 1000)
        raise self._error(f"not a time: {written[:40]!r}")


def _recognises(text: str) -> bool:
    return _OPENING.match(text) is not None


def _parse(text: str, file: str) -> Rough:
    reading = _Reading(file)
    # White space before the declaration is a common slip, and the parser's line numbers must stay the file's.
    before = len(text) - len(text.lstrip())
    declared = re.match(r"<\?xml[^>]*\?>", text[before : before + 200])
    start = before + (declared.end() if declared else 0)
    reading.parse("\n" * text.count("\n", 0, start) + text[start:])
    return Rough(reading.drafts, [], reading.language)


def _write(transcript: Transcript) -> str:
    """Carries times, text, speakers, labels that are XML names, language and measured words; no settings."""
    # Imported here: it brings the whole of HTTP with it, and few runs write this format.
    from xml.sax.saxutils import quoteattr

    speakers = list(dict.fromkeys(cue.speaker for cue in transcript.cues if cue.speaker))
    agents = {speaker: f"agent.{at}" for at, speaker in enumerate(speakers, 1)}
    lines = [f"{_HEAD} xml:lang={quoteattr(transcript.language or '')}>", "<head>", "<metadata>"]
    for name, agent in agents.items():
        lines.append(f'<ttm:agent type="person" xml:id="{agent}">')
        lines.append(f'<ttm:name type="full">{escape(name, quote=False)}</ttm:name></ttm:agent>')
    lines += ["</metadata>", "</head>", "<body>", "<div>"]
    used: set[str] = set(agents.values())
    for cue in transcript.cues:
        label = cue.label if cue.label and _LABEL.match(cue.label) and cue.label not in used else None
        used.add(label or "")
        identity = f' xml:id="{label}"' if label else ""
        voice = f' ttm:agent="{agents[cue.speaker]}"' if cue.speaker else ""
        lines.append(
            f'<p{identity} begin="{clock(cue.start_ms)}" end="{clock(cue.end_ms)}"{voice}>{_spoken(cue)}</p>'
        )
    return "\n".join([*lines, "</div>", "</body>", "</tt>", ""])


def _spoken(cue: Cue) -> str:
    """The text, each measured word in a span with times relative to the paragraph's start."""
    parts, offset = [], 0
    for word in cue.words:
        text = escape(word.text, quote=False)
        if word.measured:
            begin, end = clock(word.start_ms - cue.start_ms), clock(word.end_ms - cue.start_ms)
            text = f'<span begin="{begin}" end="{end}">{text}</span>'
        parts.append(escape(cue.text[offset : word.start], quote=False) + text)
        offset = word.stop
    return "".join(parts)


FORMAT = Format("ttml", _recognises, _parse, _write)

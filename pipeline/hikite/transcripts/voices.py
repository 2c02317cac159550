"""Speakers written into the text: ``ANNA: he's in``, a dash or ``>>`` before each voice."""

import re
from collections import Counter
from typing import NamedTuple

from hikite.transcripts.drafts import Draft, Piece, clean, pieces_of, rows_of, split

_PREFIX = re.compile(
    r"(?P<turn>[-‐–—]\s*(?=\S)|>{2,3}\s*)?"
    r"(?:(?P<name>[^\W\d_][\w.'’-]{0,20}(?: [\w.'’-]{1,20}){0,2}):(?=\s+(?P<next>\S)))?\s*"
)
# A name in mixed case must head this many rows, and such rows this share of the cues: "Score: four" does not.
_RECURS, _SHARE = 3, 0.25


class Captioned(NamedTuple):
    """A cue whose text still holds its speakers: the draft without words, and its displayed lines."""

    draft: Draft
    lines: list[str]


def voiced(cues: list[Captioned]) -> list[Draft]:
    """The cues with their words, cut where another speaker begins; a named speaker goes on until the next."""
    names = _names(cues)
    drafts: list[Draft] = []
    speaker: str | None = None
    for draft, lines in cues:
        turns = _turns(lines, names, speaker)
        pieces: list[Piece] = []
        rows: list[int] = []
        borders: list[int] = []
        speakers: list[str | None] = []
        for speaker, spoken in turns:
            if pieces:
                borders.append(len(pieces))
            rows += [len(pieces) + row for row in rows_of(spoken)]
            speakers.append(speaker)
            pieces += pieces_of(" ".join(spoken))
        if pieces:
            drafts += split(draft._replace(pieces=tuple(pieces), rows=tuple(rows)), borders, speakers)
    return drafts


def _turns(
    lines: list[str], names: frozenset[str], speaker: str | None
) -> list[tuple[str | None, list[str]]]:
    """Who says which lines; a single dash marks nothing but itself, two or more mark turns."""
    found = [(line, match) for line in map(clean, lines) if (match := _PREFIX.match(line))]
    dashes = sum(match["turn"] is not None for _, match in found) > 1
    turns: list[tuple[str | None, list[str]]] = []
    for line, match in found:
        turn, name = match["turn"], match["name"] if match["name"] in names else None
        rest = line[match.end() :] if name else line[len(turn or "") + match.start() :]
        new = name is not None or (turn is not None and (dashes or turn.startswith(">>")))
        if new:
            speaker = name
        if new or not turns:
            turns.append((speaker, []))
        turns[-1][1].append(rest)
    return [(who, spoken) for who, spoken in turns if any(line.split() for line in spoken)]


def _names(cues: list[Captioned]) -> frozenset[str]:
    """The words before a colon that are speakers' names, judged over the whole file."""
    found = [match for _, lines in cues for line in lines if (match := _PREFIX.match(clean(line)))]
    heads = [match for match in found if match["name"]]
    counts = Counter(match["name"] for match in heads)
    letters = [letter for match in found for letter in match.string[match.end() :] if letter.isalpha()]
    shouted = sum(map(str.isupper, letters)) * 2 > len(letters)
    mixed = {name for name, count in counts.items() if count >= _RECURS and _capital(name)}
    if sum(counts[name] for name in mixed) < _SHARE * len(cues):
        mixed = set()
    # In capitals once is enough, unless everything is, or a number follows as in "RED: 4".
    loud = {
        match["name"]
        for match in heads
        if match["name"].isupper() and not shouted and len(match["name"]) > 1 and not match["next"].isdigit()
    }
    return frozenset(mixed | loud)


def _capital(name: str) -> bool:
    return all(not word[0].isalpha() or word[0].isupper() for word in name.split())

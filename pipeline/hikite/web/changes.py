"""What one decision changed in a reading."""

from collections import Counter
from typing import NamedTuple

from hikite.outputs.phrases import stamp
from hikite.web.rooms import Reading
from hikite.web.verses import Chapter, Note


class Changed(NamedTuple):
    """One thing that is different now: where, what it was and what it is (either may be empty)."""

    what: str
    before: str
    after: str


def changes(before: Reading, after: Reading) -> tuple[Changed, ...]:
    """All that differs, results first, then the lines of the score, then what else is told otherwise."""
    found = []
    if len(before.chapters) != len(after.chapters):
        found.append(Changed("bouts", str(len(before.chapters)), str(len(after.chapters))))
    for one, two in zip(before.chapters, after.chapters, strict=False):
        name = f"bout {two.number}: " if len(after.chapters) > 1 else ""
        if one.final != two.final:
            found.append(Changed(f"{name}final score", one.final, two.final))
        if one.result != two.result:
            found.append(Changed(f"{name}result", one.result, two.result))
        found += _lines(one, two, counted=True)
        found += _lines(one, two, counted=False)
        found += _clashes(one, two)
    return tuple(found)


def _lines(before: Chapter, after: Chapter, *, counted: bool) -> list[Changed]:
    """The notes that are gone, are new, or stand at the same words and say something else."""
    one, two = (Counter(_told(note) for note in c.notes if note.counts == counted) for c in (before, after))
    gone, come = list((one - two).elements()), list((two - one).elements())
    found = []
    for at_ms, says in gone:
        instead = next((new for new in come if new[0] == at_ms), None)
        if instead:
            come.remove(instead)
        found.append(Changed(f"at {stamp(at_ms)}", says, instead[1] if instead else ""))
    found += [Changed(f"at {stamp(at_ms)}", "", says) for at_ms, says in come]
    return sorted(found, key=lambda change: change.what)


def _told(note: Note) -> tuple[int, str]:
    parts = [note.who, note.what, note.how, note.value, f"({note.score})" if note.score else ""]
    return note.start_ms, ", ".join(part for part in parts if part)


def _clashes(before: Chapter, after: Chapter) -> list[Changed]:
    gone = [one for one in before.clashes if one not in after.clashes]
    come = [one for one in after.clashes if one not in before.clashes]
    return [Changed("added up", says, "") for _, says in gone] + [
        Changed("at odds", "", says) for _, says in come
    ]

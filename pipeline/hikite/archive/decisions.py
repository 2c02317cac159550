"""A person's word on what was read: added to the archive, never changed, kept apart from what was derived."""

from typing import Literal

from pydantic import BaseModel

from hikite.archive.errors import ArchiveError
from hikite.archive.stores import Archive
from hikite.archive.writing import now
from hikite.records import ClaimKind, Status

DecisionKind = Literal["accept", "correct", "reject", "add", "split", "merge", "same"]


class Anchor(BaseModel, frozen=True, extra="forbid"):
    """What a decision hangs on: the recording's content, a time in it, the words said there.

    ``kind``, ``concept`` and ``side`` are those of the event as it stood; without an event only the time
    and perhaps words are told.
    """

    sha256: str
    at_ms: int
    words: str = ""
    kind: ClaimKind | None = None
    concept: str | None = None
    side: str | None = None


class Change(BaseModel, frozen=True, extra="forbid"):
    """What a decision says; only the fields that are given count, and None given for ``side`` is nobody.

    A correction names what was wrong, an addition the whole new event. ``same`` is the other event that
    tells of the same action. A split opens a new bout at the anchor, a merge takes such an opening away.
    """

    kind: ClaimKind | None = None
    concept: str | None = None
    status: Status | None = None
    side: str | None = None
    points: int | None = None
    score_class: str | None = None
    start_ms: int | None = None
    end_ms: int | None = None
    same: Anchor | None = None
    note: str | None = None

    @property
    def given(self) -> dict[str, object]:
        """The fields that were given, by name."""
        return {
            name: getattr(self, name) for name in type(self).model_fields if name in self.model_fields_set
        }


class Decision(BaseModel, frozen=True, extra="forbid"):
    """One decision; ``made_at`` is UTC. ``undone`` says that its reviewer took it back."""

    id: int
    reviewer: str
    made_at: str
    kind: DecisionKind
    anchor: Anchor
    change: Change
    undone: bool = False


_NEEDS: dict[str, tuple[str, ...]] = {"add": ("kind", "concept"), "same": ("same",)}


def decide(
    archive: Archive, reviewer: str, kind: DecisionKind, anchor: Anchor, change: Change | None = None
) -> Decision:
    """The decision as it was added; ArchiveError where it says too little or the recording is not known."""
    change = change or Change()
    lacking = [name for name in _NEEDS.get(kind, ()) if getattr(change, name) is None]
    if lacking or (kind == "correct" and not set(change.given) - {"note"}):
        raise ArchiveError(f"to {kind} needs {' and '.join(lacking) or 'something that is corrected'}")
    if not reviewer.strip():
        raise ArchiveError("a decision needs a reviewer's name")
    if archive.recording_of(anchor.sha256) is None:
        raise ArchiveError("no recording of this content is in the archive")
    id_ = _add(archive, reviewer, kind, anchor, change.model_dump_json(exclude_unset=True), None)
    return _one(archive, id_)


def undo(archive: Archive, decision: int, reviewer: str) -> Decision:
    """The reviewer's own decision, taken back; taken back a second time it holds again.

    ArchiveError where there is none, or it is somebody else's.
    """
    before = _one(archive, decision)
    if before.reviewer != reviewer:
        raise ArchiveError(f"decision {decision} is {before.reviewer}'s, and only theirs to undo")
    _add(archive, reviewer, "undo", before.anchor, "{}", decision)
    return _one(archive, decision)


def decisions_of(
    archive: Archive, recording: int, reviewer: str | None = None, *, undone: bool = False
) -> tuple[Decision, ...]:
    """The decisions on a recording that hold, oldest first, of one reviewer or of all; or all ever made."""
    rows = archive.db.execute(
        f"{_QUERY} AND sha256 IN (SELECT sha256 FROM recordings WHERE id = :recording UNION"
        " SELECT sha256 FROM editions WHERE recording = :recording)"
        " AND (:reviewer IS NULL OR reviewer = :reviewer) ORDER BY id",
        {"recording": recording, "reviewer": reviewer},
    )
    made = map(_made, rows.fetchall())
    return tuple(decision for decision in made if undone or not decision.undone)


def reviewers(archive: Archive) -> tuple[str, ...]:
    """Everybody who ever decided something."""
    return tuple(name for (name,) in archive.db.execute("SELECT DISTINCT reviewer FROM decisions ORDER BY 1"))


_QUERY = """
    SELECT id, reviewer, made_at, kind, sha256, at_ms, words, entry_kind, entry_concept, entry_side, change,
        (SELECT count(*) FROM decisions u WHERE u.undoes = d.id) % 2
    FROM decisions d WHERE undoes IS NULL
"""


def _one(archive: Archive, id_: int) -> Decision:
    row = archive.db.execute(f"{_QUERY} AND id = ?", (id_,)).fetchone()
    if row is None:
        raise ArchiveError(f"there is no decision {id_}")
    return _made(row)


def _made(row: tuple[object, ...]) -> Decision:
    id_, reviewer, made_at, kind, *anchor, change, undone = row
    hung = Anchor.model_validate(dict(zip(Anchor.model_fields, anchor, strict=True)))
    return Decision.model_validate(
        {
            "id": id_,
            "reviewer": reviewer,
            "made_at": made_at,
            "kind": kind,
            "anchor": hung,
            "change": Change.model_validate_json(str(change)),
            "undone": undone,
        }
    )


def _add(archive: Archive, reviewer: str, kind: str, anchor: Anchor, change: str, undoes: int | None) -> int:
    with archive.writing() as db:
        made = db.execute(
            "INSERT INTO decisions (reviewer, made_at, sha256, at_ms, words, entry_kind, entry_concept,"
            " entry_side, kind, change, undoes) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (reviewer, now(), *anchor.model_dump().values(), kind, change, undoes),
        ).lastrowid
    assert made is not None
    return made

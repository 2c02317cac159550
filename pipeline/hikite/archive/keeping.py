"""Folders of recordings into an archive: nothing lost, nothing done twice."""

from collections.abc import Callable, Iterator
from pathlib import Path
from time import monotonic

from pydantic import BaseModel

from hikite.archive.derivations import Derived, Task
from hikite.archive.derivations.deriving import loaded
from hikite.archive.errors import ArchiveError
from hikite.archive.kept import Refusal
from hikite.archive.lexicons import put_lexicon
from hikite.archive.planning import Plan, Work, note_seen, plan, plan_stale, vanished
from hikite.archive.scanning import Found, find_files, look_at
from hikite.archive.stamps import Stamps, load_stamps
from hikite.archive.stores import Archive
from hikite.archive.workers import derive_all
from hikite.archive.writing import now, put, put_file, put_refusal, put_tallies

Watch = Callable[[str, int, int], None]
"""Told what is going on: ``looking`` or ``reading``, how many are done, of how many (0 for not known)."""


class Summary(BaseModel, frozen=True, extra="forbid"):
    """What a run did, in files and recordings.

    ``new`` were kept for the first time, ``edited`` took the place of what their file held before, ``again``
    were derived again because their bout sheet, the words, the rules or the program changed. ``moved`` were
    found under another name, ``copies`` hold what another file holds too, ``same`` needed nothing.
    ``vanished`` are files no longer found; their recordings stay. ``stale`` recordings lie elsewhere and
    were read with other words, rules or another program.
    """

    looked_at: int
    new: int
    edited: int
    again: int
    moved: tuple[tuple[str, str], ...]
    copies: int
    same: int
    refused: tuple[Refusal, ...]
    vanished: tuple[str, ...]
    stale: int
    words: int
    seconds: float


def keep_files(
    archive: Archive, places: tuple[Path, ...] = (), *, jobs: int = 1, watch: Watch | None = None,
    stamps: Stamps | None = None,
) -> Summary:  # fmt: skip
    """Bring an archive up to date with files and folders; without any, with today's words, rules and program.

    Each recording is one transaction: a run that is ended at any instant is taken up by the next. With
    several ``jobs`` a script that calls this needs the usual ``if __name__ == "__main__"``. Names that
    reviewers corrected lie in a file beside the archive and go before the shipped ones. ArchiveError where
    a file or folder is missing.
    """
    missing = next((place for place in places if not place.exists()), None)
    if missing is not None:
        raise ArchiveError("no such file or folder", file=str(missing))
    aliases = corrections(archive.file)
    run = _Run(archive, stamps or load_stamps(aliases=aliases), watch or (lambda *_: None), aliases)
    run.look(places)
    run.read(jobs)
    return run.summary(places)


def aliases_of(archive: Path) -> Path:
    """Where the names corrected in the reading room over an archive are kept."""
    return archive.with_name(f"{archive.name}.aliases.toml")


def corrections(archive: Path) -> tuple[Path, ...]:
    """The file of corrected names of an archive, none where nothing has been corrected."""
    return tuple(file for file in (aliases_of(archive),) if file.is_file())


class _Run:
    """One run with what it has counted so far."""

    def __init__(self, archive: Archive, stamps: Stamps, watch: Watch, aliases: tuple[Path, ...]) -> None:
        self.archive, self.stamps, self.watch, self.aliases = archive, stamps, watch, aliases
        self.began = monotonic()
        self.refused: list[Refusal] = []
        self.looked_at = self.new = self.edited = self.again = self.copies = self.words = 0
        self.to_do: tuple[Work, ...] = ()
        self.plan = Plan(work=(), moves=(), same=())

    def look(self, places: tuple[Path, ...]) -> None:
        """Find out what there is to do, and put right what needs no reading."""
        db = self.archive.db
        note_seen(db, self._found(places))
        self.plan = plan(db, self.stamps)
        self.to_do = self.plan.work if places else plan_stale(db, self.stamps)
        with self.archive.writing():
            for place in self.plan.same:
                db.execute(
                    "UPDATE files SET media = ?, gone_since = NULL WHERE path = ?", (place.media, place.path)
                )
            # All the old names first: one may be the new name of another.
            db.executemany("DELETE FROM files WHERE path = ?", ((move.before,) for move in self.plan.moves))
            for move in self.plan.moves:
                put_file(db, move.recording, move.place)
            for refusal in self.refused:
                put_refusal(db, refusal)

    def _found(self, places: tuple[Path, ...]) -> Iterator[Found]:
        for file in find_files(places):
            self.looked_at += 1
            self.watch("looking", self.looked_at, 0)
            one = look_at(file)
            if isinstance(one, Refusal):
                self.refused.append(one)
            else:
                yield one

    def read(self, jobs: int) -> None:
        """Derive and write all there is to do."""
        if self.to_do or not self.archive.db.execute("SELECT 1 FROM stamps").fetchone():
            with self.archive.writing() as db:
                put_lexicon(db, loaded(self.aliases), self.stamps.words)
        # A recording lost in a power cut is read again by the next run; a person's decision could not be.
        self.archive.db.execute("PRAGMA synchronous = NORMAL")
        for done, (work, result) in enumerate(derive_all(self.to_do, self._task, jobs), 1):
            if isinstance(result, Refusal):
                self._refuse(work, result)
            else:
                self._keep(work, result)
            self.watch("reading", done, len(self.to_do))
        self.archive.db.execute("PRAGMA synchronous = FULL")

    def _task(self, work: Work) -> Task:
        path = work.places[0].path if work.places else f"recording {work.known} of the archive"
        if work.since == "file":
            return Task(path=path, sheet=work.sheet, aliases=self.aliases)
        db = self.archive.db
        sheet, lexicon = db.execute(
            "SELECT sheet, lexicon FROM recordings WHERE id = ?", (work.known,)
        ).fetchone()
        parts = dict(db.execute("SELECT stage, body FROM parts WHERE recording = ?", (work.known,)))
        return Task(
            path=path, since=work.since, parts=parts, told=sheet, lexicon=lexicon, aliases=self.aliases
        )

    def _keep(self, work: Work, derived: Derived) -> None:
        put(self.archive, derived, work.places, work.sheet_sha256, self.stamps, work.replaces)
        self.copies += max(len(work.places) - 1, 0)
        self.words += sum(len(row.text.split()) for row in derived.talk)
        if work.known is not None:
            self.again += 1
        elif work.replaces is not None:
            self.edited += 1
        else:
            self.new += 1

    def _refuse(self, work: Work, refusal: Refusal) -> None:
        """Every file of that content is refused; what one held before stays, but is found there no more."""
        each = tuple(refusal.model_copy(update={"path": place.path}) for place in work.places) or (refusal,)
        self.refused += each
        with self.archive.writing() as db:
            for one in each:
                put_refusal(db, one)
                if work.known is None:
                    db.execute(
                        "UPDATE files SET gone_since = ? WHERE path = ? AND gone_since IS NULL",
                        (now(), one.path),
                    )

    def summary(self, places: tuple[Path, ...]) -> Summary:
        """Mark what vanished, and tell what was done."""
        db = self.archive.db
        gone = vanished(db, places)
        stale = len(plan_stale(db, self.stamps))
        with self.archive.writing():
            db.executemany("UPDATE files SET gone_since = ? WHERE path = ?", ((now(), path) for path in gone))
            if self.new or self.again or self.edited:
                put_tallies(db)
            for (path,) in db.execute("SELECT path FROM refused").fetchall():
                if not Path(path).exists():
                    db.execute("DELETE FROM refused WHERE path = ?", (path,))
        moves = [(move.before, move.place.path) for move in self.plan.moves]
        copies = sum(before is None for before, _ in moves)
        copies += self.copies
        return Summary(
            looked_at=self.looked_at,
            new=self.new,
            edited=self.edited,
            again=self.again,
            moved=tuple((before, after) for before, after in moves if before is not None),
            copies=copies,
            same=len(self.plan.same) - sum(work.known is not None for work in self.to_do if work.places),
            refused=tuple(self.refused),
            vanished=gone,
            stale=stale,
            words=self.words,
            seconds=monotonic() - self.began,
        )

"""Names of people and nations as they are asked for, to those an archive knows."""

from collections.abc import Iterable
from difflib import get_close_matches

from hikite.archive.errors import QueryError
from hikite.archive.folding import folded
from hikite.archive.stores import Archive


def people_of(archive: Archive, words: str) -> tuple[int, ...]:
    """The numbers of those in whose names all the words begin a part; QueryError where there is nobody."""
    parts = folded(words).split()
    if not parts:
        raise QueryError(f"there is no name in {words!r}")
    each = " AND ".join("instr(' ' || folded, ?)" for _ in parts)
    found = archive.db.execute(f"SELECT id FROM people WHERE {each}", [f" {part}" for part in parts])
    ids = tuple(id_ for (id_,) in found)
    if not ids:
        names = [name for (name,) in archive.db.execute("SELECT name FROM people")]
        raise QueryError(f"nobody here is called {words!r}{_like(words, names)}")
    return ids


def nation_of(archive: Archive, words: str) -> str:
    """The nation as it stands in an archive; QueryError where nobody does anything for it."""
    nation = folded(words)
    known = "SELECT 1 FROM events WHERE nation = ? AND nation <> '' LIMIT 1"
    if archive.db.execute(known, (nation,)).fetchone() is None:
        nations = "SELECT DISTINCT nation FROM competitors WHERE nation IS NOT NULL"
        names = [name for (name,) in archive.db.execute(nations)]
        raise QueryError(f"nobody here fights for {words!r}{_like(words, names)}")
    return nation


def _like(words: str, names: Iterable[str]) -> str:
    """What it may have been, by letters alone: the whole name or a part of it."""
    whole: dict[str, str] = {}
    for name in names:
        for part in (folded(name), *folded(name).split()):
            whole.setdefault(part, name)
    near = get_close_matches(folded(words), whole, n=3, cutoff=0.7)
    said = dict.fromkeys(whole[part] for part in near)
    return f"; did you mean {' or '.join(said)}?" if said else ""

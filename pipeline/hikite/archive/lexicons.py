"""The lexicon's names, families and labels inside the archive, so that a search needs nothing else."""

import sqlite3
from collections.abc import Iterator

from hikite.outputs.labels import Labels
from hikite.process import Lexicon
from hikite.terms import Terms
from hikite.terms.words import normalised


def put_lexicon(db: sqlite3.Connection, lexicon: Lexicon, stamp: str) -> None:
    """The names and families of this lexicon in the place of others; nothing where they are the same."""
    before = db.execute("SELECT value FROM stamps WHERE name = 'words'").fetchone()
    if before and before[0] == stamp:
        return
    terms, labels = lexicon.terms, Labels(lexicon.terms, lexicon.language)
    for table in ("concepts", "names", "kin"):
        db.execute(f"DELETE FROM {table}")
    db.executemany(
        "INSERT INTO concepts VALUES (?, ?, ?, ?, ?, ?, ?)",
        (
            (id_, one.kind, labels.of(id_), one.family, one.tradition, one.generic, one.caution)
            for id_, one in terms.concepts.items()
        ),
    )
    db.executemany("INSERT INTO names VALUES (?, ?, ?)", _names(terms))
    db.executemany("INSERT INTO kin VALUES (?, ?)", _kin(terms))
    db.execute("INSERT OR REPLACE INTO stamps VALUES ('words', ?)", (stamp,))


def _names(terms: Terms) -> Iterator[tuple[str, int, str]]:
    """Every form with what it may mean, likeliest first; a concept's id is a name of it too."""
    forms = {normalised(name.form) for name in terms.names if "~" not in name.form}
    for form in sorted(forms):
        yield from ((form, rank, concept) for rank, concept in enumerate(terms.lookup(form)))
    for id_ in terms.concepts:
        if normalised(id_) not in forms:
            yield normalised(id_), 0, id_
            forms.add(normalised(id_))


def _kin(terms: Terms) -> Iterator[tuple[str, str]]:
    """What asking for a concept means: itself, its members at any depth, and what counts as the same."""
    below: dict[str, set[str]] = {}
    for id_, concept in terms.concepts.items():
        if concept.family:
            below.setdefault(concept.family, set()).add(id_)
        for other in concept.same_as:
            below.setdefault(id_, set()).add(other)
            below.setdefault(other, set()).add(id_)
    for id_ in terms.concepts:
        meant, todo = {id_}, [id_]
        while todo:
            fresh = below.get(todo.pop(), set()) - meant
            meant |= fresh
            todo += fresh
        yield from ((id_, each) for each in sorted(meant))

"""Names as they are asked for, to the concepts they mean."""

from difflib import get_close_matches
from functools import lru_cache

from pydantic import BaseModel

from hikite.archive.errors import QueryError
from hikite.archive.stores import Archive
from hikite.terms.words import normalised

SURE = 0.5
"""What only sounds alike is taken for meant from this probability on; below it is asked back."""


class Naming(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """What a name was taken for: concepts with their labels, and everything that counts as one of them.

    ``how`` is ``name`` where it is one, else ``nearly`` or ``by sound`` with ``probability``; ``instead``
    are labels of what else it may have meant.
    """

    asked: str
    how: str
    concepts: tuple[str, ...]
    labels: tuple[str, ...]
    meant: tuple[str, ...]
    probability: float = 1.0
    instead: tuple[str, ...] = ()


def is_name(archive: Archive, name: str) -> bool:
    """Whether the archive's lexicon has exactly this name."""
    return bool(archive.db.execute("SELECT 1 FROM names WHERE normal = ?", (normalised(name),)).fetchone())


def naming(archive: Archive, name: str) -> Naming:
    """What a name means; QueryError, with what it may have been, where it means nothing known."""
    rows = archive.db.execute(
        "SELECT n.concept, c.label FROM names n JOIN concepts c ON c.id = n.concept WHERE n.normal = ?"
        " ORDER BY n.rank",
        (normalised(name),),
    ).fetchall()
    if rows:
        concepts, labels = zip(*rows, strict=True)
        return Naming(
            asked=name, how="name", concepts=concepts, labels=labels, meant=_meant(archive, concepts)
        )
    return _heard(archive, name)


def _heard(archive: Archive, name: str) -> Naming:
    """By letters and sound, as the lexicon's own look-up does it; it takes a second the first time."""
    found = _looked_up(name) if normalised(name) else ()
    held = {id_ for (id_,) in archive.db.execute("SELECT id FROM concepts")}
    found = tuple(one for one in found if one[0] in held)
    labels = tuple(dict.fromkeys(label for _, label, _, _ in found))
    if not found:
        raise QueryError(f"no name reads or sounds like {name!r}{_spelt_like(archive, name)}")
    concept, label, probability, how = found[0]
    if probability < SURE:
        raise QueryError(f"no name is {name!r}; did you mean {' or '.join(labels[:4])}?")
    return Naming(
        asked=name,
        how=how,
        concepts=(concept,),
        labels=(label,),
        meant=_meant(archive, (concept,)),
        probability=probability,
        instead=labels[1:5],
    )


def _spelt_like(archive: Archive, name: str) -> str:
    """What it may be a slip for, by letters alone; words for whole families are among them."""
    names = (known for (known,) in archive.db.execute("SELECT DISTINCT normal FROM names"))
    near = get_close_matches(normalised(name), names, n=3, cutoff=0.75)
    return f"; did you mean {' or '.join(near)}?" if near else ""


@lru_cache(maxsize=256)
def _looked_up(name: str) -> tuple[tuple[str, str, float, str], ...]:
    from hikite.archive.derivations.deriving import loaded
    from hikite.outputs.lookups import look_up

    return tuple((one.concept.id, one.label, one.probability, one.how) for one in look_up(name, loaded()))


def _meant(archive: Archive, concepts: tuple[str, ...]) -> tuple[str, ...]:
    marks = ", ".join("?" * len(concepts))
    rows = archive.db.execute(f"SELECT DISTINCT meant FROM kin WHERE asked IN ({marks}) ORDER BY 1", concepts)
    return tuple(meant for (meant,) in rows)

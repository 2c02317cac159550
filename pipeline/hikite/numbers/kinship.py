"""Which concepts are one technique under several names, and which families it belongs to."""

from collections import defaultdict

from hikite.archive import Archive


class Kinship:
    """The families and labels of an archive's lexicon."""

    def __init__(self, archive: Archive) -> None:
        db = archive.db
        self._labels: dict[str, str] = dict(db.execute("SELECT id, label FROM concepts"))
        generic = {id_ for (id_,) in db.execute("SELECT id FROM concepts WHERE generic")}
        asked: dict[str, set[str]] = defaultdict(set)
        for above, meant in db.execute("SELECT asked, meant FROM kin"):
            asked[meant].add(above)
        self._one = {
            id_: min(other for other in above if id_ in asked[other]) for id_, above in asked.items()
        }
        self._families = {id_: tuple(sorted(above & generic)) for id_, above in asked.items()}

    def one(self, concept: str) -> str:
        """The id that stands for a technique and whatever is the same under other names."""
        return self._one.get(concept, concept)

    def families(self, concept: str) -> tuple[str, ...]:
        """Every family the concept is of, itself where it is one."""
        return self._families.get(concept, ())

    def label(self, concept: str) -> str:
        """What people call it."""
        return self._labels.get(concept, concept)

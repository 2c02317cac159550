"""A search narrowed step by step: what the hits have in common, counted, each a way to narrow further."""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from pydantic import ValidationError

from hikite.archive import Archive, Query, search
from hikite.archive.errors import QueryError
from hikite.archive.searches.expressions import read_expression
from hikite.archive.searches.hits import Found, Hit
from hikite.archive.searches.namings import is_name
from hikite.process import Lexicon

COUNTED = 600
"""So many hits are counted; of a larger find, the first so many."""
NAMES = ("family", "who", "rules", "outcome")
_MOST = 9


class Facet(NamedTuple):
    """One value that hits have: how many ``times``, and whether the search is narrowed to it."""

    value: str
    label: str
    times: int
    chosen: bool


class Results(NamedTuple):
    """A page of hits with what they have in common."""

    query: Query
    found: Found
    counted: int
    facets: dict[str, tuple[Facet, ...]]


def look(
    archive: Archive, lexicon: Lexicon, text: str, chosen: Mapping[str, str], *, skip: int, limit: int
) -> Results:
    """What an expression finds, narrowed by the facets chosen; QueryError where it cannot be understood."""
    query = _narrowed(archive, _query(archive, text), chosen)
    wide = search(archive, query.model_copy(update={"limit": COUNTED, "skip": 0}))
    if skip + limit <= len(wide.hits):
        shown = wide.model_copy(update={"hits": wide.hits[skip : skip + limit]})
    else:
        shown = search(archive, query.model_copy(update={"limit": limit, "skip": skip}))
    return Results(query, shown, len(wide.hits), _facets(archive, lexicon, wide.hits, chosen))


def _query(archive: Archive, text: str) -> Query:
    if not text:
        return Query(kinds=("technique", "hold"))
    return read_expression(text, lambda name: is_name(archive, name))


def _narrowed(archive: Archive, query: Query, chosen: Mapping[str, str]) -> Query:
    """The query with the facets put in; each only ever takes hits away."""
    given: dict[str, object] = {}
    if chosen.get("rules"):
        given["ruleset"] = chosen["rules"]
    if chosen.get("who"):
        given["by"] = chosen["who"]
    if chosen.get("outcome"):
        given["status"] = (chosen["outcome"],)
    if chosen.get("family"):
        members = [chosen["family"]]
        if query.what:
            wide = search(archive, query.model_copy(update={"limit": COUNTED, "skip": 0}))
            known = families_of(archive, (hit.concept for hit in wide.hits))
            members = [one for one, families in known.items() if chosen["family"] in families]
        if not members:
            raise QueryError(f"nothing found is of the family {chosen['family']!r}")
        given["what"] = tuple(sorted(members))
    try:
        return Query.model_validate({**query.model_dump(exclude_unset=True), **given})
    except ValidationError as error:
        raise QueryError(f"{error.errors()[0]['loc'][0]}: {error.errors()[0]['msg']}") from None


def families_of(archive: Archive, concepts: Iterable[str | None]) -> dict[str, tuple[str, ...]]:
    """By concept the families that a search for them would find it in, and itself where it is one."""
    met = sorted({one for one in concepts if one})
    rows = archive.db.execute(
        "SELECT k.meant, k.asked FROM kin k JOIN concepts c ON c.id = k.asked"
        f" WHERE c.generic AND k.meant IN ({', '.join('?' * len(met))})",
        met,
    )
    found: dict[str, tuple[str, ...]] = {}
    for concept, family in rows:
        found[concept] = (*found.get(concept, ()), family)
    return found


def _facets(
    archive: Archive, lexicon: Lexicon, hits: Iterable[Hit], chosen: Mapping[str, str]
) -> dict[str, tuple[Facet, ...]]:
    hits = [hit for hit in hits if hit.entry]
    labels = dict(archive.db.execute("SELECT id, label FROM concepts"))
    labels |= {key: rules.name for key, rules in lexicon.rulesets.rulesets.items()}
    families = families_of(archive, (hit.concept for hit in hits))
    values: dict[str, list[str | None]] = {
        "family": [one for hit in hits for one in families.get(hit.concept or "", ())],
        "who": [hit.competitor for hit in hits],
        "rules": [hit.ruleset for hit in hits],
        "outcome": [hit.status for hit in hits],
    }
    return {name: _counted(each, labels, chosen.get(name, "")) for name, each in values.items()}


def _counted(values: list[str | None], labels: dict[str, str], chosen: str) -> tuple[Facet, ...]:
    counts = Counter(value for value in values if value)
    return tuple(
        Facet(value, labels.get(value, value), count, value == chosen)
        for value, count in sorted(counts.items(), key=lambda one: (-one[1], one[0]))[:_MOST]
    )

"""What the lexicon can tell about one concept: names, families, links. It never says how to do it."""

from typing import Literal

from pydantic import BaseModel

from hikite.records import Kind
from hikite.terms.words import Mark, Name, Script, Terms

Link = Literal["same", "near"]

CAUTION = (
    "A description for finding it in speech, not an instruction. It injures easily or is prohibited"
    " under some rules: the rule book in force, the referee and qualified coaches decide."
)


class NameGroup(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The names of one language in one script; ``published`` are those with a source."""

    language: str
    script: Script
    published: tuple[str, ...]
    common: tuple[str, ...]
    sources: tuple[str, ...]


class Linked(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Another concept that is the same or akin, with its first names for reading."""

    concept: str
    link: Link
    names: tuple[str, ...]


class Told(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """All there is to show about a concept; ``families`` run from the nearest to the root."""

    concept: str
    kind: Kind
    tradition: str
    generic: bool
    gloss: str
    source: str
    mark: Mark
    caution: str = ""
    names: tuple[NameGroup, ...]
    families: tuple[str, ...]
    members: tuple[str, ...]
    links: tuple[Linked, ...]
    also_means: dict[str, tuple[str, ...]]


def tell(terms: Terms, concept: str) -> Told:
    """What is known of a concept id; KeyError where there is none of that id.

    ``members`` are the concepts directly under it, ``also_means`` the other concepts that an ambiguous
    form of it may mean, by form. Misspellings are left out.
    """
    row = terms.concepts[concept]
    names = terms.names_of(concept)
    same = {each for each in terms.concepts if each != concept and terms.same(each, concept)}
    near = (
        {*row.near, *(each.id for each in terms.concepts.values() if concept in each.near)} - same - {concept}
    )
    meanings = {
        name.form: tuple(each for each in terms.lookup(name.form) if each != concept)
        for name in names
        if not name.heard
    }
    return Told(
        concept=concept,
        kind=row.kind,
        tradition=row.tradition,
        generic=row.generic,
        gloss=row.gloss,
        source=row.source,
        mark=row.mark,
        caution=CAUTION if row.caution else "",
        names=_grouped(names),
        families=tuple(terms.families(concept))[1:],
        members=tuple(each.id for each in terms.concepts.values() if each.family == concept),
        links=tuple(
            Linked(concept=each, link=link, names=tuple(name.form for name in terms.names_of(each)[:3]))
            for link, others in (("same", same), ("near", near))
            for each in sorted(others)
        ),
        also_means={form: others for form, others in meanings.items() if others},
    )


def _grouped(names: tuple[Name, ...]) -> tuple[NameGroup, ...]:
    groups: dict[tuple[str, Script], list[Name]] = {}
    for name in names:
        if not name.heard:
            groups.setdefault((name.language, name.script), []).append(name)
    return tuple(
        NameGroup(
            language=language,
            script=script,
            published=tuple(name.form for name in found if name.mark == "published"),
            common=tuple(name.form for name in found if name.mark != "published"),
            sources=tuple(dict.fromkeys(name.source for name in found if name.source)),
        )
        for (language, script), found in groups.items()
    )

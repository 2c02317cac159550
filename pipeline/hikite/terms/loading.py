"""The lexicon read from its folders into one ``Terms``, every claim in it checked."""

import hashlib
from functools import partial
from importlib.resources.abc import Traversable
from pathlib import Path

from hikite.terms.aliases import Alias, read_aliases
from hikite.terms.files import AmbiguousRow, ConceptRow, NamesRow, TomlFile
from hikite.terms.kept import kept
from hikite.terms.places import lexicon_root
from hikite.terms.words import Concept, Name, Terms, normalised, script_of


def load_terms(root: Traversable | None = None, aliases: tuple[Path, ...] = ()) -> Terms:
    """Every concept and name under ``root`` (the shipped lexicon by default), then local alias files.

    LexiconError with file and line on an unknown key, an unknown concept, a family that leads nowhere or
    in a circle, or a form that two concepts claim without a table in ``ambiguous.toml``.
    """
    shipped, root = root is None, root or lexicon_root()
    concept_files = _files(root / "concepts")
    name_files = _by_language(root, "terms.toml")
    ambiguous_files = _by_language(root, "ambiguous.toml")
    texts = [file.text for file in concept_files]
    texts += [file.text for _, file in (*name_files, *ambiguous_files)]
    version = _hash(texts)
    make = partial(_terms, concept_files, name_files, ambiguous_files, version)
    terms = kept("terms", version, Terms, make, {}) if shipped else make()
    corrections = tuple(alias for file in aliases for alias in read_aliases(file, terms.concepts))
    if not corrections:
        return terms
    return _corrected(terms, corrections, _hash([*texts, *(one.model_dump_json() for one in corrections)]))


def _terms(
    concept_files: list[TomlFile],
    name_files: list[tuple[str, TomlFile]],
    ambiguous_files: list[tuple[str, TomlFile]],
    version: str,
) -> Terms:
    """The terms of these files, every claim in them checked."""
    concepts = _concepts(concept_files)
    names, places = _names(name_files, concepts)
    names, ambiguous = _with_ambiguous(names, ambiguous_files, concepts)
    _refuse_double_claims(names, ambiguous, places)
    return Terms(concepts=concepts, names=tuple(names), ambiguous=ambiguous, version=version)


def _files(folder: Traversable) -> list[TomlFile]:
    return [TomlFile(each) for each in _sorted(folder) if each.name.endswith(".toml")]


def _by_language(root: Traversable, name: str) -> list[tuple[str, TomlFile]]:
    """The file of that name in every language's folder that has one."""
    files = [(folder.name, folder / name) for folder in _sorted(root) if folder.is_dir()]
    return [(language, TomlFile(file)) for language, file in files if file.is_file()]


def _sorted(folder: Traversable) -> list[Traversable]:
    return sorted(folder.iterdir(), key=lambda each: each.name)


def _hash(texts: list[str]) -> str:
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()[:16]


def _concepts(files: list[TomlFile]) -> dict[str, Concept]:
    concepts: dict[str, Concept] = {}
    homes: dict[str, TomlFile] = {}
    for file in files:
        for id_, row in file.rows(ConceptRow).items():
            if id_ in concepts:
                raise file.error(f"{id_}: already in {homes[id_].name}", id_)
            concepts[id_] = Concept(id=id_, **row.model_dump())
            homes[id_] = file
    for id_, concept in concepts.items():
        family = () if concept.family is None else (concept.family,)
        for key, others in (
            ("same_as", concept.same_as),
            ("near", concept.near),
            ("answers", concept.answers),
            ("family", family),
        ):
            for other in others:
                if other not in concepts:
                    raise homes[id_].error(f"{id_}: {key} names an unknown concept, {other}", id_, key)
        _refuse_circle(concept, concepts, homes[id_])
    return concepts


def _refuse_circle(concept: Concept, concepts: dict[str, Concept], home: TomlFile) -> None:
    seen, at = {concept.id}, concept.family
    while at is not None:
        if at in seen:
            raise home.error(f"{concept.id}: its families run in a circle at {at}", concept.id, "family")
        seen.add(at)
        at = concepts[at].family


def _names(
    files: list[tuple[str, TomlFile]], concepts: dict[str, Concept]
) -> tuple[list[Name], dict[str, list[tuple[TomlFile, str]]]]:
    names: list[Name] = []
    places: dict[str, list[tuple[TomlFile, str]]] = {}
    for language, file in files:
        for id_, row in file.rows(NamesRow).items():
            if id_ not in concepts:
                raise file.error(f"{id_}: no such concept", id_)
            for name in _row_names(id_, row, language, file):
                names.append(name)
                places.setdefault(normalised(name.form), []).append((file, id_))
    return names, places


def _row_names(id_: str, row: NamesRow, language: str, file: TomlFile) -> list[Name]:
    stray = set(row.weak).difference(row.names, row.also, row.verbs, row.heard)
    if stray:
        raise file.error(f"{id_}: weak lists what is not a form of it, {min(stray)}", id_, "weak")
    found: dict[str, Name] = {}
    for key, forms in (("names", row.names), ("also", row.also), ("verbs", row.verbs), ("heard", row.heard)):
        for form in forms:
            if not all(normalised(form).split("~")) or form.count("~") > 1 or form != form.lower():
                raise file.error(
                    f"{id_}: not a lower-case form with one ~ between words at most, {form!r}", id_, key
                )
            found.setdefault(
                form,
                Name(
                    form=form,
                    concept=id_,
                    language=language,
                    script=script_of(form),
                    verb=key == "verbs",
                    weak=form in row.weak,
                    heard=key == "heard",
                    source=row.source if key == "names" else "",
                    mark=row.mark if key == "names" else "memory",
                ),
            )
    return list(found.values())


def _with_ambiguous(
    names: list[Name], files: list[tuple[str, TomlFile]], concepts: dict[str, Concept]
) -> tuple[list[Name], dict[str, tuple[str, ...]]]:
    """The names with one more for each meaning that a form declared ambiguous has, and those meanings."""
    ambiguous: dict[str, tuple[str, ...]] = {}
    known = {(normalised(name.form), name.concept) for name in names}
    for language, file in files:
        for form, row in file.rows(AmbiguousRow).items():
            for concept in row.concepts:
                if concept not in concepts:
                    raise file.error(f"{form}: no such concept, {concept}", form, "concepts")
            if len(row.concepts) < 2 or form != form.lower():
                raise file.error(f"{form}: needs two concepts and lower case", form, "concepts")
            key = normalised(form)
            ambiguous[key] = tuple(dict.fromkeys((*ambiguous.get(key, ()), *row.concepts)))
            names += [
                Name(form=form, concept=each, language=language, script=script_of(form), weak=row.weak)
                for each in row.concepts
                if (key, each) not in known
            ]
    return names, ambiguous


def _refuse_double_claims(
    names: list[Name], ambiguous: dict[str, tuple[str, ...]], places: dict[str, list[tuple[TomlFile, str]]]
) -> None:
    owners: dict[str, str] = {}
    for name in names:
        key = normalised(name.form)
        owner = owners.setdefault(key, name.concept)
        if key in ambiguous:
            if name.concept not in ambiguous[key]:
                file, id_ = next(place for place in places[key] if place[1] == name.concept)
                raise file.error(f"{name.form!r} is declared ambiguous without {id_}", id_)
        elif owner != name.concept:
            file, id_ = next(place for place in places[key] if place[1] == name.concept)
            raise file.error(f"{name.form!r} is claimed by {id_} and by {owner}", id_)


def _corrected(terms: Terms, corrections: tuple[Alias, ...], version: str) -> Terms:
    """The terms with every correction's words put before what those words meant until now."""
    names, ambiguous = list(terms.names), dict(terms.ambiguous)
    for alias in corrections:
        key = normalised(alias.words)
        before = ambiguous.get(key) or terms.lookup(alias.words)
        meanings = tuple(dict.fromkeys((alias.concept, *before)))
        if len(meanings) > 1:
            ambiguous[key] = meanings
        if alias.concept not in before:
            names.append(
                Name(
                    form=alias.words.lower(),
                    concept=alias.concept,
                    language=alias.language,
                    script=script_of(alias.words),
                    heard=True,
                    source=f"correction by {alias.who}, {alias.when}",
                )
            )
    # Not a copy of the old one: that would carry over what it has cached.
    return Terms(concepts=terms.concepts, names=tuple(names), ambiguous=ambiguous, version=version)

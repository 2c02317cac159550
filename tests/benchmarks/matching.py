"""Compares ways of finding names in running text: words a second, and hits by how a name is spoilt.

    python tests/benchmarks/matching.py [--words 20000]

The text is made here: invented commentary with one name in about thirty words, a third as written, a
third with a slip of the finger, a third garbled as recognisers do (``GARBLES``, made by hand for this
comparison and used in no fitting). Every way is given the same names; the slow ones are given 3,000 words.
Sound keys (metaphone) and letter triples want ``pip install jellyfish simstring-rust`` beside hikite; without
them their rows are left out, and said to be.
"""

import argparse
import random
import resource
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from rapidfuzz import fuzz, process

from hikite.mentions import Matcher
from hikite.mentions.evidence import load_weights
from hikite.mentions.streams import Stream
from hikite.sounds import squash
from hikite.terms import Terms, load_terms

FILLER = (
    "they are back on their feet and nobody wants to move",
    "the coach is shouting from his chair again",
    "he has been working hard all morning",
    "what a morning this has been so far",
    "you can hear the crowd behind him",
    "she looks calm and so does her trainer",
    "he wipes his hands and comes forward",
    "the doctor has a look at the finger and nods",
    "that is the third year for the club from the coast",
    "i met his uncle in the car park yesterday",
    "nothing in it for either of them yet",
    "a short wait while somebody finds a towel",
)
LEADS = (
    "he goes for the",
    "she attacks with",
    "into the",
    "a lovely",
    "looking for",
    "he hits the",
    "tries the",
)
GARBLES = {
    "uchi-mata": ("oochie matta", "ouchi martyr", "uchi matter"),
    "tai-otoshi": ("tie oh toshi", "thai o toshi", "tyo tashi"),
    "kata-guruma": ("carta guru mark", "kata garuma", "catta gooroomah"),
    "sumi-gaeshi": ("sue me guy she", "sumi guy ashy", "soumi gayeshi"),
    "tomoe-nage": ("tommo a naggy", "tomoway nagay", "tomo enage"),
    "harai-goshi": ("her eye go she", "harry goshi", "harai goshy"),
    "ura-nage": ("oura naggy", "hurra nagay", "ura nagi"),
    "hane-goshi": ("honey goshi", "hanay go she", "hanegoshy"),
    "juji-gatame": ("juji got a may", "judgy gatamay", "juji gata me"),
    "kesa-gatame": ("kessa got amy", "case a gatame", "kesagatami"),
}


@dataclass(frozen=True)
class Text:
    """The words, and of every name its range, the concepts that are right and how it was spoilt."""

    words: tuple[str, ...]
    names: tuple[tuple[int, int, frozenset[str], str], ...]


def make(terms: Terms, size: int, seed: int = 7) -> Text:
    """A text of about ``size`` words."""
    draw = random.Random(seed)
    forms = [
        name
        for name in terms.names
        if name.language in ("ja", "en")
        and name.script == "latin"
        and not (name.weak or name.heard or name.verb or terms.concepts[name.concept].generic)
        and len(squash(name.form)) >= 8
        and "~" not in name.form
    ]
    words: list[str] = []
    names = []
    while len(words) < size:
        words += draw.choice(FILLER).split() + draw.choice(FILLER).split()
        words += draw.choice(LEADS).split()
        how = draw.choice(("written", "slip", "garble"))
        if how == "garble":
            concept, garbles = draw.choice(list(GARBLES.items()))
            said, right = draw.choice(garbles), terms.lookup(concept)
        else:
            name = draw.choice(forms)
            said, right = name.form.replace("-", " ").replace("'", " "), terms.lookup(name.form)
            if how == "slip":
                at = draw.randrange(1, len(said) - 1)
                said = said[:at] + draw.choice("aeiounrst") + said[at + 1 :]
        piece = said.split()
        names.append((len(words), len(words) + len(piece), frozenset(right), how))
        words += piece
    return Text(tuple(words), tuple(names))


Finder = Callable[[Text], list[tuple[int, int, str]]]


def by_hikite(terms: Terms) -> Finder:
    """Everything the matcher does."""
    matcher, weights = Matcher(terms), load_weights("en")

    def find(text: Text) -> list[tuple[int, int, str]]:
        stream = Stream(text.words, np.zeros(len(text.words), np.int64), ("",) * len(text.words))
        found = matcher.cover(stream, weights.vector(), weights.least)
        return [(one.first, one.stop, one.candidates[0].concept) for one in found]

    return find


def by_rapidfuzz(terms: Terms, cut: float = 85.0) -> Finder:
    """The likeness of letters of every window of one to four words with every name."""
    forms = _forms(terms)
    keys = list(forms)

    def find(text: Text) -> list[tuple[int, int, str]]:
        spans = list(_windows(text))
        scored = []
        for start in range(0, len(spans), 512):
            batch = spans[start : start + 512]
            likeness = process.cdist(
                [s[2] for s in batch], keys, scorer=fuzz.ratio, score_cutoff=cut, dtype=np.uint8
            )
            best = likeness.argmax(axis=1)
            scored += [
                (float(likeness[row, at]) * len(batch[row][2]), *batch[row][:2], forms[keys[at]])
                for row, at in enumerate(best.tolist())
                if likeness[row, at]
            ]
        return greedy(scored)

    return find


def by_phrases(terms: Terms) -> Finder:
    """spaCy's phrase matcher over lower-case words."""
    import spacy
    from spacy.matcher import PhraseMatcher
    from spacy.tokens import Doc

    nlp = spacy.blank("en")
    matcher = PhraseMatcher(nlp.vocab, attr="LOWER")
    for name in terms.names:
        if not name.weak and "~" not in name.form:
            matcher.add(name.concept, [Doc(nlp.vocab, words=name.form.replace("-", " ").split())])

    def find(text: Text) -> list[tuple[int, int, str]]:
        doc = Doc(nlp.vocab, words=list(text.words))
        return greedy(
            [(stop - first, first, stop, nlp.vocab.strings[key]) for key, first, stop in matcher(doc)]
        )

    return find


def by_keys(terms: Terms) -> Finder:
    """Windows whose metaphone key is that of a name."""
    from jellyfish import metaphone

    keys = {metaphone(form): concept for form, concept in _forms(terms).items() if len(metaphone(form)) > 2}

    def find(text: Text) -> list[tuple[int, int, str]]:
        scored = []
        for first, stop, joined in _windows(text):
            concept = keys.get(metaphone(joined))
            if concept:
                scored.append((float(len(joined)), first, stop, concept))
        return greedy(scored)

    return find


def by_triples(terms: Terms, cut: float = 0.7) -> Finder:
    """Windows that share enough triples of letters with a name, by cosine."""
    from simstring_rust.database import HashDb
    from simstring_rust.extractors import CharacterNgrams
    from simstring_rust.measures import Cosine
    from simstring_rust.searcher import Searcher

    forms = _forms(terms)
    held = HashDb(CharacterNgrams(3, "$"))
    for form in forms:
        held.insert(form)
    searcher = Searcher(held, Cosine())

    def find(text: Text) -> list[tuple[int, int, str]]:
        scored = []
        for first, stop, joined in _windows(text):
            near = searcher.ranked_search(joined, cut)
            if near:
                form, likeness = near[0]
                scored.append((likeness * len(joined), first, stop, forms[form]))
        return greedy(scored)

    return find


def _forms(terms: Terms) -> dict[str, str]:
    forms = {squash(name.form): name.concept for name in terms.names if not name.weak}
    return {form: concept for form, concept in forms.items() if len(form) >= 5}


def _windows(text: Text) -> Iterator[tuple[int, int, str]]:
    """Ranges of one to four words, and their letters."""
    for size in (1, 2, 3, 4):
        for at in range(len(text.words) - size + 1):
            joined = "".join(text.words[at : at + size])
            if len(joined) >= 5:
                yield at, at + size, joined


def greedy(scored: list[tuple[float, int, int, str]]) -> list[tuple[int, int, str]]:
    """The best of overlapping finds, best first."""
    taken: set[int] = set()
    kept = []
    for _, first, stop, concept in sorted(scored, key=lambda one: -one[0]):
        if taken.isdisjoint(range(first, stop)):
            taken.update(range(first, stop))
            kept.append((first, stop, concept))
    return kept


def report(label: str, finder: Finder, text: Text, terms: Terms) -> None:
    """Print one line: speed, then hits by how the names were spoilt, and false finds."""
    finder(Text(text.words[:200], ()))
    start = time.process_time()
    found = finder(text)
    seconds = time.process_time() - start
    hits: Counter[str] = Counter()
    used: set[int] = set()
    for first, stop, right, how in text.names:
        for at, (one, two, concept) in enumerate(found):
            if (
                at not in used
                and one < stop
                and first < two
                and any(terms.same(concept, each) for each in right)
            ):
                used.add(at)
                hits[how] += 1
                break
    totals = Counter(how for *_, how in text.names)
    false = [one for at, one in enumerate(found) if at not in used and not terms.concepts[one[2]].generic]
    away = [one for one in false if all(one[0] >= stop or first >= one[1] for first, stop, *_ in text.names)]
    precision, recall = (
        sum(hits.values()) / max(len(used) + len(false), 1),
        sum(hits.values()) / len(text.names),
    )
    rates = " ".join(f"{how} R {hits[how] / totals[how]:.2f}" for how in sorted(totals))
    print(
        f"{label:10} {len(text.words) / seconds:>9,.0f} words/s  P {precision:.2f} R {recall:.2f} "
        f"F1 {2 * precision * recall / max(precision + recall, 1e-9):.2f}  {rates}  "
        f"away from names {1000 * len(away) / len(text.words):.1f} per 1,000 words"
    )


def main() -> None:
    """Run every way on one text."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--words", type=int, default=20_000)
    asked = parser.parse_args()
    terms = load_terms()
    text = make(terms, asked.words)
    start = time.perf_counter()
    hikite = by_hikite(terms)
    print(
        f"index of {len(terms.names)} names in {time.perf_counter() - start:.2f} s; {len(text.words)} words"
    )
    report("hikite", hikite, text, terms)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"at most {most} MB so far, the text and its names among it")
    few = Text(text.words[:3000], tuple(name for name in text.names if name[1] <= 3000))
    for label, make_way, given in (
        ("hikite", lambda _: hikite, few),
        ("phrases", by_phrases, text),
        ("letters", by_rapidfuzz, few),
        ("keys", by_keys, few),
        ("triples", by_triples, few),
    ):
        try:
            way = make_way(terms)
        except ImportError as missing:
            print(f"{label:10} left out: {missing}")
            continue
        report(label, way, given, terms)


if __name__ == "__main__":
    main()

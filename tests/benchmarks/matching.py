"""Compares ways of finding names in running text: words a second, and hits by how a name is spoilt.

    python tests/benchmarks/matching.py [--words 20000]

The text is made here: invented commentary with one name in about thirty words, a third as written, a
third with a slip of the finger, a third garbled as recognisers do (``GARBLES``, made by hand for this
comparison and used in no fitting). Every way is given the same names; the slow one is given 3,000 words.
"""

import argparse
import random
import time
from collections import Counter
from collections.abc import Callable
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
    forms = {squash(name.form): name.concept for name in terms.names if not name.weak}
    keys = [form for form in forms if len(form) >= 5]

    def find(text: Text) -> list[tuple[int, int, str]]:
        spans = [
            (at, at + size, "".join(text.words[at : at + size]))
            for size in (1, 2, 3, 4)
            for at in range(len(text.words) - size + 1)
        ]
        spans = [span for span in spans if len(span[2]) >= 5]
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
    start = time.perf_counter()
    found = finder(text)
    seconds = time.perf_counter() - start
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
    report("phrases", by_phrases(terms), text, terms)
    report(
        "letters",
        by_rapidfuzz(terms),
        Text(text.words[:3000], tuple(n for n in text.names if n[1] <= 3000)),
        terms,
    )


if __name__ == "__main__":
    main()

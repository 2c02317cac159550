from collections.abc import Callable

import pytest

from hikite.mentions import Matcher
from hikite.records import Cue, Talk, Transcript, Word
from hikite.terms import Terms, load_terms
from hikite.utterances import cut


def talk_of(said: str) -> Talk:
    """One speaker's line, four words a second, cut as any transcript is."""
    words, at = [], 0
    for number, word in enumerate(said.split()):
        start = said.index(word, at)
        at = start + len(word)
        words.append(Word(text=word, start=start, stop=at, start_ms=250 * number, end_ms=250 * number + 240))
    end = words[-1].end_ms if words else 0
    cue = Cue(text=said, start_ms=0, end_ms=end, words=tuple(words), line=1)
    return cut(Transcript(source="said", format="plain", encoding="utf-8", sha256="", cues=(cue,)))


@pytest.fixture(scope="session")
def terms() -> Terms:
    return load_terms()


@pytest.fixture(scope="session")
def matcher(terms: Terms) -> Matcher:
    return Matcher(terms)


@pytest.fixture(scope="session")
def talk() -> Callable[[str], Talk]:
    return talk_of

"""The main path on one screen: timed text to a bout record."""

from functools import partial
from pathlib import Path

from pydantic import BaseModel, ConfigDict

from hikite.claims import hear
from hikite.ledger import Rulesets, Weighed, keep, load_rulesets, righted, rules_of
from hikite.mentions import find_mentions
from hikite.records import Recording, Sheet, Transcript
from hikite.terms import Terms, load_terms
from hikite.utterances import cut


class Lexicon(BaseModel):
    """What the stages know beforehand, loaded once for any number of recordings."""

    model_config = ConfigDict(frozen=True, arbitrary_types_allowed=True)

    terms: Terms
    rulesets: Rulesets
    language: str = "en"


def load_lexicon(language: str = "en", aliases: tuple[Path, ...] = ()) -> Lexicon:
    """The shipped terms, local corrections before them, and rule sets; LexiconError if one is broken."""
    return Lexicon(terms=load_terms(aliases=aliases), rulesets=load_rulesets(), language=language)


def process(transcript: Transcript, lexicon: Lexicon, sheet: Sheet | None = None) -> Recording:
    """The recording with its bouts, from the words alone or with what the bout sheet tells."""
    talk = cut(transcript, lexicon.language)
    mentions = find_mentions(talk, lexicon.terms, lexicon.language)
    listen = partial(hear, talk, mentions, lexicon.terms, language=lexicon.language)
    rules = partial(rules_of, rulesets=lexicon.rulesets)
    testimony = listen(sheet or Sheet(), rules_of=rules)
    weighed: tuple[Weighed, ...] = ()
    if sheet is None or not sheet.competitors:
        testimony, weighed = righted(testimony, listen, lexicon.rulesets)
    return Recording(
        transcript=transcript,
        talk=talk,
        mentions=mentions,
        testimony=testimony,
        ledger=keep(testimony, lexicon.rulesets, weighed=weighed),
        lexicon=lexicon.terms.version,
    )

"""The main path on one screen: timed text to a bout record."""

from pathlib import Path

from pydantic import BaseModel, ConfigDict

from hikite.claims import hear
from hikite.ledger import Rulesets, keep, load_rulesets, rules_of
from hikite.mentions import find_mentions
from hikite.records import Mention, Recording, Sheet, Talk, Testimony, Transcript
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
    mentions = find_mentions(talk, lexicon.terms, lexicon.language, sheet)
    testimony = _heard(talk, mentions, lexicon, sheet or Sheet())
    return Recording(
        transcript=transcript,
        talk=talk,
        mentions=mentions,
        testimony=testimony,
        ledger=keep(testimony, lexicon.rulesets),
        lexicon=lexicon.terms.version,
    )


def _heard(talk: Talk, mentions: tuple[Mention, ...], lexicon: Lexicon, sheet: Sheet) -> Testimony:
    """What the talk claims; where no sheet tells the rules, heard again under those it speaks of."""
    first = hear(talk, mentions, lexicon.terms, sheet, lexicon.language)
    if sheet.ruleset is not None:
        return first
    spoken_of = sheet.model_copy(update={"ruleset": rules_of(first, lexicon.rulesets)})
    again = hear(talk, mentions, lexicon.terms, spoken_of, lexicon.language)
    return again.model_copy(update={"sheet": again.sheet.model_copy(update={"ruleset": None})})

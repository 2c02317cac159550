"""Names that a reviewer corrected, kept in the file of local aliases while the correction holds."""

from datetime import UTC, datetime
from pathlib import Path
from threading import Lock

from hikite.archive.decisions import Decision
from hikite.archive.kept import KeptRecording
from hikite.errors import LexiconError
from hikite.process import Lexicon
from hikite.terms import Terms
from hikite.terms.aliases import Alias, drop_alias, read_aliases, write_alias
from hikite.terms.words import normalised
from hikite.web.wordings import precise

_LOCK = Lock()


def keep_name(file: Path, lexicon: Lexicon, kept: KeptRecording, made: Decision, typed: str) -> None:
    """The words of a note that was corrected written down as one more name of what they meant."""
    concept, words = made.change.concept, made.anchor.words
    if concept is None or not words:
        return
    alias = Alias(
        words=words,
        concept=concept,
        language=language_of(lexicon, concept, typed),
        who=made.reviewer,
        when=datetime.now(UTC).isoformat(timespec="seconds"),
        where=f"{kept.path or kept.sha256} {precise(made.anchor.at_ms)}",
    )
    with _LOCK:
        write_alias(file, alias)


def drop_name(file: Path, terms: Terms, made: Decision) -> None:
    """What was written down for a correction taken out again, once that is taken back."""
    if made.change.concept is None:
        return
    mine = (made.anchor.words, made.change.concept, made.reviewer)
    with _LOCK:
        try:
            known = read_aliases(file, terms.concepts)
        except LexiconError:
            # Somebody is at work on the file: what they make of it is theirs.
            return
        for one in known:
            here = one.where.endswith(f" {precise(made.anchor.at_ms)}")
            if here and (one.words, one.concept, one.who) == mine:
                drop_alias(file, one)


def language_of(lexicon: Lexicon, concept: str, typed: str) -> str:
    """The language of the name as it was typed, else of the concept's own name, else of its first."""
    names = [name for name in lexicon.terms.names_of(concept) if not name.heard]
    for form in (typed, typed.partition("(")[0], concept):
        found = next((one.language for one in names if normalised(one.form) == normalised(form)), None)
        if found:
            return found
    return names[0].language if names else lexicon.language

"""The path from a file to its ledger, as far as it is built."""

import importlib
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from hikite.records import Ledger, Mention, Sheet, Talk, Testimony


class Parts(BaseModel, frozen=True):
    """What each stage made of one recording; ``None`` where the path ended before it."""

    talk: Talk
    mentions: tuple[Mention, ...] = ()
    testimony: Testimony | None = None
    ledger: Ledger | None = None


class Stages:
    """The stages, loaded once; ``last`` stops early, at mentions or claims."""

    def __init__(self, last: str = "ledger") -> None:
        self.last = last
        self.terms = _stage("hikite.terms", "load_terms")()
        self.rulesets = _try("hikite.ledger", "load_rulesets")

    def run(self, path: Path, sheet: Sheet | None) -> Parts:
        """One file through every stage there is."""
        talk = _stage("hikite.utterances", "cut")(_stage("hikite.transcripts", "read")(path))
        mentions = _stage("hikite.mentions", "find_mentions")(talk, self.terms)
        hear, keep = _try("hikite.claims", "hear"), _try("hikite.ledger", "keep")
        if hear is None or self.last == "mentions":
            return Parts(talk=talk, mentions=mentions)
        testimony = hear(talk, mentions, self.terms, sheet or Sheet())
        if keep is None or self.last == "claims":
            return Parts(talk=talk, mentions=mentions, testimony=testimony)
        ledger = keep(testimony, self.rulesets()) if self.rulesets else keep(testimony)
        return Parts(talk=talk, mentions=mentions, testimony=testimony, ledger=ledger)


def _stage(module: str, name: str) -> Any:
    return getattr(importlib.import_module(module), name)


def _try(module: str, name: str) -> Any:
    return getattr(importlib.import_module(module), name, None)

"""One recording with all that was made of it, stage by stage."""

from pydantic import BaseModel

from hikite.records.claim import Testimony
from hikite.records.ledger import Ledger
from hikite.records.mention import Mention
from hikite.records.talk import Talk
from hikite.records.transcript import Transcript


class Recording(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The transcript and what each stage read from it; ``lexicon`` is the version of the terms used."""

    transcript: Transcript
    talk: Talk
    mentions: tuple[Mention, ...]
    testimony: Testimony
    ledger: Ledger
    lexicon: str

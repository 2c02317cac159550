"""The frozen record types that the stages hand on."""

from hikite.records.claim import Claim, ClaimKind, Reason, Status, Tally, Testimony
from hikite.records.ledger import Bout, Clock, Contradiction, Event, Ledger, OtherScore, Otherwise, Result
from hikite.records.mention import Candidate, How, Kind, Mention
from hikite.records.recording import Recording
from hikite.records.sheet import Cast, Competitor, Sheet
from hikite.records.talk import Talk, Token, Utterance
from hikite.records.transcript import Cue, Mending, Transcript, Word

__all__ = [
    "Bout",
    "Candidate",
    "Cast",
    "Claim",
    "ClaimKind",
    "Clock",
    "Competitor",
    "Contradiction",
    "Cue",
    "Event",
    "How",
    "Kind",
    "Ledger",
    "Mending",
    "Mention",
    "OtherScore",
    "Otherwise",
    "Reason",
    "Recording",
    "Result",
    "Sheet",
    "Status",
    "Talk",
    "Tally",
    "Testimony",
    "Token",
    "Transcript",
    "Utterance",
    "Word",
]

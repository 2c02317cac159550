"""The claims as the record has them: the ledger may have settled whose a claim was, what became of it, how a
bout was won."""

from hikite.records import Claim, Event, Recording, Testimony


def settled(recording: Recording) -> Testimony:
    """The testimony with each claim's side and status, and a result's how, as its event says them."""
    claims = list(recording.testimony.claims)
    for bout in recording.ledger.bouts:
        for event in bout.events:
            for number in event.claims if event.counts else event.claims[:1]:
                claims[number] = _as_entered(claims[number], event, bout.sides)
    return recording.testimony.model_copy(update={"claims": tuple(claims)})


def _as_entered(claim: Claim, event: Event, sides: tuple[str, str]) -> Claim:
    """A claim with its event's side and status; what only supports a line of the score stays as it was."""
    if event.side is None or claim.kind != event.kind:
        return claim
    sure = event.side_confidence
    chances = {side: sure if side == event.side else 1.0 - sure for side in sides}
    how = event.concept if claim.kind == "result" else claim.concept
    entered = claim.model_copy(update={"side": event.side, "sides": chances, "concept": how})
    if claim.status == event.status:
        return entered
    statuses = {event.status: event.status_confidence}
    return entered.model_copy(update={"status": event.status, "statuses": statuses})

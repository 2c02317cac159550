"""A reading with people's decisions in it: their word is certain, and the score is reckoned again from it."""

from collections.abc import Iterable

from hikite.archive.anchors import Attached
from hikite.archive.decisions import Anchor, Change, Decision
from hikite.ledger import keep
from hikite.process import Lexicon
from hikite.records import Claim, Event, Recording, Talk, Testimony

_SAID_OF = {"score": "given", "penalty": "given", "result": "given", "grip": "taken", "hold": "running"}
"""How an added event is meant where the person does not say; other actions were completed."""
_TOLD = frozenset({"position", "landing", "clock", "stoppage", "stated_score"})


def revised(recording: Recording, attached: Iterable[Attached], lexicon: Lexicon) -> Recording:
    """The recording as it is once the decisions hold, in the order they were made.

    Each hangs on an event of this very reading (or on none: additions and bout borders). What was accepted or
    corrected is vouched for, what was rejected is no longer claimed, and the ledger is kept anew. Decisions
    whose event is not found again change nothing.
    """
    revision = _Revision(recording)
    for one in attached:
        revision.take(one)
    testimony = revision.testimony()
    if testimony == recording.testimony:
        return recording
    return recording.model_copy(update={"testimony": testimony, "ledger": keep(testimony, lexicon.rulesets)})


class _Revision:
    """The claims while decisions are taken; a claim taken away is None until the end."""

    def __init__(self, recording: Recording) -> None:
        self.recording, self.before = recording, recording.testimony
        self.claims: list[Claim | None] = list(self.before.claims)
        self.opens, self.joins = list(self.before.opens_ms), list(self.before.joins_ms)
        self.events = {
            f"b{bout.number}.{number}": (event, bout.sides)
            for bout in recording.ledger.bouts
            for number, event in enumerate(bout.events, 1)
        }

    def take(self, attached: Attached) -> None:
        decision = attached.decision
        match decision.kind:
            case "split":
                self.opens.append(decision.anchor.at_ms)
            case "merge":
                self.joins.append(decision.anchor.at_ms)
            case "add":
                self._add(decision.anchor, decision.change)
            case _ if attached.event is not None:
                self._on(*self.events[attached.event.entry], decision)

    def _on(self, event: Event, sides: tuple[str, str], decision: Decision) -> None:
        match decision.kind:
            case "reject":
                self._reject(event)
            case "same":
                for number in self._own(event):
                    self._change(number, {"status": "recalled"})
            case "correct":
                self._vouch(event, sides, decision.change)
            case "accept":
                self._vouch(event, sides, Change())

    def _own(self, event: Event) -> list[int]:
        """The claims of the event's own kind: a score's points, not the throw they were for."""
        return [n for n in event.claims if (one := self.claims[n]) is not None and one.kind == event.kind]

    def _reject(self, event: Event) -> None:
        """Its claims are taken away; a throw that was only inferred to have scored did not come off."""
        own = self._own(event)
        for number in own:
            self.claims[number] = None
        for number in event.claims if not own else ():
            self._change(number, {"status": "attempted"})

    def _vouch(self, event: Event, sides: tuple[str, str], change: Change) -> None:
        given, own = change.given, self._own(event)
        side = given.get("side", event.side)
        if event.counts and not own and event.kind == "score":
            self._score_of(event, change)
        for number in own:
            again = {"repeats": own[0]} if number != own[0] else {}
            self._change(number, {"side": side, "status": event.status, **again, **given})
        for number in event.claims:
            claim = self.claims[number]
            if claim is None or number in own:
                continue
            theirs = _other(side, sides) if claim.kind in ("landing", "penalty") else side
            named = {"concept": given["concept"]} if "concept" in given and claim.kind == "technique" else {}
            if claim.kind in ("technique", "hold", "landing", "penalty"):
                self._change(number, {"side": theirs, **named})

    def _score_of(self, event: Event, change: Change) -> None:
        """A line of the score that nobody called is called by the person."""
        told = {"kind": "score", "points": event.points, "score_class": event.score_class, "side": event.side}
        given = {name: value for name, value in change.given.items() if name not in ("concept", "kind")}
        called = Change.model_validate({**told, "concept": "points", **given})
        anchor = Anchor(sha256=self.recording.transcript.sha256, at_ms=event.end_ms)
        self._add(anchor, called)

    def _change(self, number: int, given: dict[str, object]) -> None:
        """A claim with what a person says of it, vouched for."""
        claim = self.claims[number]
        if claim is None:
            return
        known = {name: value for name, value in given.items() if name in Claim.model_fields}
        whole = claim.model_copy(update=known)
        self.claims[number] = whole.model_copy(update=_certain(whole))

    def _add(self, anchor: Anchor, change: Change) -> None:
        first, stop = _tokens(self.recording.talk, anchor)
        kind = change.kind or "technique"
        claim = Claim(
            first=first,
            stop=stop,
            start_ms=anchor.at_ms if change.start_ms is None else change.start_ms,
            end_ms=change.end_ms or self.recording.talk.tokens[stop - 1].end_ms,
            kind=kind,
            concept=change.concept or kind,
            status=change.status or _SAID_OF.get(kind, "stated" if kind in _TOLD else "completed"),
            side=change.side,
            points=change.points,
            score_class=change.score_class,
        )
        self.claims.append(claim.model_copy(update=_certain(claim)))

    def testimony(self) -> Testimony:
        """The claims that are left, in time order, their links following them."""
        kept = [(one.start_ms, number) for number, one in enumerate(self.claims) if one is not None]
        order = [number for _, number in sorted(kept)]
        place: dict[int | None, int] = {old: new for new, old in enumerate(order)}
        claims = []
        for number in order:
            claim = self.claims[number]
            assert claim is not None
            links = {name: place.get(getattr(claim, name)) for name in ("counters", "after", "repeats")}
            claims.append(claim.model_copy(update=links))
        return self.before.model_copy(
            update={
                "claims": tuple(claims),
                "opens_ms": tuple(self.opens),
                "joins_ms": tuple(self.joins),
            }
        )


def _certain(claim: Claim) -> dict[str, object]:
    return {
        "vouched": True,
        "confidence": 1.0,
        "statuses": {claim.status: 1.0},
        "sides": {claim.side or "": 1.0},
        "alternatives": (),
    }


def _other(side: object, sides: tuple[str, str]) -> object:
    return sides[1 - sides.index(side)] if isinstance(side, str) and side in sides else side


def _tokens(talk: Talk, anchor: Anchor) -> tuple[int, int]:
    """The tokens of the anchor's words nearest to its time, or the token said then."""
    said = [_letters(token.text) for token in talk.tokens]
    wanted = _letters(anchor.words)
    spans = [(n, stop) for n in range(len(said)) if wanted and (stop := _through(said, n, wanted))]
    spans = spans or [(n, n + 1) for n in range(len(said))]
    return min(spans, key=lambda span: abs(talk.tokens[span[0]].start_ms - anchor.at_ms), default=(0, 0))


def _letters(words: str) -> str:
    return "".join(filter(str.isalnum, words.casefold()))


def _through(said: list[str], first: int, wanted: str) -> int | None:
    """Where the tokens from ``first`` on have said what is wanted, or None."""
    for stop in range(first, len(said)):
        if not wanted.startswith(said[stop]) or (not said[stop] and stop == first):
            return None
        wanted = wanted.removeprefix(said[stop])
        if not wanted:
            return stop + 1
    return None

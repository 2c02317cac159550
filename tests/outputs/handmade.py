"""A recording made by hand: what each stage would have made of four captions, no stage asked."""

from hikite.records import (
    Bout,
    Candidate,
    Claim,
    Clock,
    Competitor,
    Contradiction,
    Event,
    Ledger,
    Mention,
    Reason,
    Recording,
    Result,
    Sheet,
    Tally,
    Testimony,
)
from hikite.transcripts import read
from hikite.utterances import cut

CAPTIONS = """WEBVTT

1
00:00:10.000 --> 00:00:12.000 align:start
<v Ada>Red goes for the ooch ee

2
00:00:12.000 --> 00:00:14.000
<v Ada>matter & over, that's | two

00:00:20.000 --> 00:00:22.000
<v Ada>Sambo, ko sotto carry from *blue*

00:00:30.000 --> 00:00:32.000
<v Ada>Four nil, they say
"""
SIDES = ("red", "blue")


def handmade(name: str = "by-hand.vtt") -> Recording:
    """The recording: an inner-thigh throw heard across two captions, its points, a score at odds."""
    transcript = read(CAPTIONS.encode(), name=name)
    talk = cut(transcript)
    words = [token.text for token in talk.tokens]

    def claim(first: str, last: str, kind: str, concept: str, status: str, side: str | None, **more) -> Claim:
        start = words.index(first)
        stop = words.index(last, start) + 1
        return Claim(
            first=start, stop=stop, start_ms=talk.tokens[start].start_ms, end_ms=talk.tokens[stop - 1].end_ms,
            kind=kind, concept=concept, status=status, side=side, sides={side: 0.9} if side else {}, **more,
        )  # fmt: skip

    claims = (
        claim("ooch", "matter", "technique", "uchi-mata", "completed", "red", statuses={"completed": 0.8}),
        claim(
            "two", "two", "score", "points", "given", "red", points=2, reasons=(Reason(name="cue", weight=1),)
        ),
        claim("ko", "carry", "technique", "ko-soto-gari", "attempted", "blue", counters=0),
        claim("four", "nil", "stated_score", "score", "stated", None, tallies={"red": Tally(points=4)}),
    )
    mentions = (
        _mention(claims[0], "uchi-mata", "uchi mata", "sound", 0.9),
        _mention(claims[2], "ko-soto-gari", "ko soto gari", "sound", 0.3),
    )
    testimony = Testimony(claims=claims, sheet=Sheet(title="Cup | *final*", date="2026-05-09"))
    return Recording(
        transcript=transcript, talk=talk, mentions=mentions, testimony=testimony,
        ledger=Ledger(bouts=(_bout(claims),)), lexicon="made by hand",
    )  # fmt: skip


def _mention(claim: Claim, concept: str, form: str, how: str, sure: float) -> Mention:
    best = Candidate(concept=concept, probability=sure, form=form, how=how)
    return Mention(first=claim.first, stop=claim.stop, kind="technique", candidates=(best,))


def _bout(claims: tuple[Claim, ...]) -> Bout:
    after = {"red": Tally(points=2), "blue": Tally(points=0)}
    plain = [_event(number, claim) for number, claim in enumerate(claims) if claim.kind != "score"]
    score = Event(
        start_ms=claims[1].start_ms, end_ms=claims[1].end_ms, kind="score", concept="uchi-mata",
        status="given", side="red", counts=True, points=2, score_after=after, row="SM-04", claims=(1, 0),
        confidence=0.95, reasons=(*claims[1].reasons, Reason(name="award called", weight=0.95)),
    )  # fmt: skip
    events = sorted([*plain, score], key=lambda event: event.start_ms)
    return Bout(
        number=1, ruleset="sambo.sport.2020", ruleset_confidence=0.8, sides=SIDES,
        competitors=(Competitor(side="red", name="orvik tandel"), Competitor(side="blue")),
        start_ms=10_000, end_ms=32_000, first_claim=0, stop_claim=len(claims), events=tuple(events),
        final=after, final_confidence=0.9, result=Result(winner="red", by="points", confidence=0.97),
        contradictions=(Contradiction(at_ms=30_000, problem="four nil is said, two counted", claims=(3,)),),
        warnings=(),
    )  # fmt: skip


def _event(number: int, claim: Claim) -> Event:
    return Event(
        start_ms=claim.start_ms, end_ms=claim.end_ms, kind=claim.kind, concept=claim.concept,
        status=claim.status, side=claim.side, stated=claim.tallies, counters=claim.counters, claims=(number,),
        confidence=0.3 if claim.concept == "ko-soto-gari" else 0.9, side_confidence=0.9,
        status_confidence=0.9, clock=Clock(low_s=270, high_s=280, best_s=275),
    )  # fmt: skip

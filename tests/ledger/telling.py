"""Small words to tell a bout in claims."""

from hikite.records import Claim, Sheet, Tally, Testimony

Told = dict[str, object]
OTHER = {"red": "blue", "blue": "red", "white": "blue"}


def throw(side: str, concept: str = "o-goshi", on: str | None = None, fell: bool | None = None) -> list[Told]:
    """A completed technique, with the landing of the one thrown and whether the thrower went down."""
    told: list[Told] = [
        {"kind": "technique", "concept": concept, "status": "completed", "side": side, "fell": fell}
    ]
    if on:
        thrown = {"red": "blue", "white": "blue"}.get(side, "red")
        told.append(
            {"kind": "landing", "concept": f"landing:{on}", "status": "stated", "side": thrown, "fell": fell}
        )
    return told


def award(side: str | None, value: int | str, status: str = "given") -> list[Told]:
    """Points or a judo score as called."""
    worth = {"points": value} if isinstance(value, int) else {"score_class": value}
    return [{"kind": "score", "concept": "points", "status": status, "side": side, **worth}]


def hold(side: str, seconds: int, status: str = "broken") -> list[Told]:
    """A hold that ran so long."""
    return [
        {"kind": "hold", "concept": "kesa-gatame", "status": "running", "side": side},
        {"kind": "hold", "concept": "kesa-gatame", "status": status, "side": side, "seconds": seconds},
    ]


def fault(side: str, concept: str, points: int | None = None) -> list[Told]:
    """A penalty against a side."""
    return [{"kind": "penalty", "concept": concept, "status": "given", "side": side, "points": points}]


def result(side: str, concept: str) -> list[Told]:
    """A result named."""
    return [{"kind": "result", "concept": concept, "status": "given", "side": side}]


def stated(**points: int) -> list[Told]:
    """A score stated by side."""
    tallies = {side: Tally(points=value) for side, value in points.items()}
    return [{"kind": "stated_score", "concept": "score", "status": "stated", "tallies": tallies}]


def board(**tallies: dict[str, int]) -> list[Told]:
    """A judo score stated by side."""
    told = {side: Tally.model_validate(tally) for side, tally in tallies.items()}
    return [{"kind": "stated_score", "concept": "score", "status": "stated", "tallies": told}]


def clock(seconds: int, of: str | None = None, elapsed: bool = False) -> list[Told]:
    """A clock reading."""
    return [
        {
            "kind": "clock",
            "concept": "clock",
            "status": "stated",
            "seconds": seconds,
            "of": of,
            "elapsed": elapsed,
        }
    ]


def call(concept: str, of: str | None = None) -> list[Told]:
    """A start, stop, restart or end."""
    return [{"kind": "stoppage", "concept": concept, "status": "stated", "of": of}]


def tell(
    *acts: list[Told], ruleset: str | None, apart_ms: int = 30_000, date: str | None = None
) -> Testimony:
    """The acts as claims: three seconds between the claims of an act, half a minute between acts."""
    claims: list[Claim] = []
    for number, act in enumerate(acts):
        for place, told in enumerate(act):
            at = 1000 + number * apart_ms + place * 3000
            first = len(claims)
            known = {name: value for name, value in told.items() if value is not None}
            claims.append(
                Claim.model_validate(
                    {"first": first, "stop": first + 1, "start_ms": at, "end_ms": at + 1000, **known}
                )
            )
    return Testimony(claims=tuple(claims), sheet=Sheet(ruleset=ruleset, date=date))

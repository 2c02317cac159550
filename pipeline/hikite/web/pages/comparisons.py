"""Who decided what, and how far two reviewers agree."""

from collections.abc import Iterable

from starlette.requests import Request
from starlette.responses import Response

from hikite.archive.anchors import Compared, attach, compare
from hikite.archive.decisions import Decision, reviewers
from hikite.datasets.agreements import kappa
from hikite.outputs.phrases import stamp
from hikite.web.guards import cleaned, reviewer_of
from hikite.web.pages.answers import page, room_of
from hikite.web.pages.readings import reading_of
from hikite.web.wordings import DONE

_DONE = {**DONE, "reject": "struck out", "split": "bout begins", "merge": "no bout begins"}


def decisions(request: Request) -> Response:
    """Every decision on a recording, those taken back too; two reviewers side by side where asked."""
    room, number = room_of(request), request.path_params["number"]
    one = cleaned(request.query_params.get("one", ""))
    other = cleaned(request.query_params.get("other", ""))
    with room.opened() as archive:
        reading = reading_of(room, archive, number, reviewer_of(request))
        made = attach(archive, number, undone=True)
        pairs = compare(archive, number, one, other) if one and other and one != other else ()
        labels = dict(archive.db.execute("SELECT id, label FROM concepts"))
        names = reviewers(archive)
    both = [pair for pair in pairs if pair.one and pair.other]
    return page(
        request, "decisions.html", reading=reading, made=tuple(reversed(made)), names=names, one=one or "",
        other=other or "", pairs=pairs, both=len(both), agreed=sum(bool(pair.agree) for pair in both),
        kappa=kappa(_judged(pairs)), done=_DONE, says=lambda decision: says(decision, labels),
    )  # fmt: skip


def says(decision: Decision, labels: dict[str, str]) -> str:
    """What a decision says, in words: ``corrected: side blue, 2 points``."""
    told = []
    for name, value in decision.change.given.items():
        if name == "same":
            told.append(f"as at {stamp(decision.change.same.at_ms)}" if decision.change.same else "")
        elif name == "concept":
            told.append(labels.get(str(value), str(value)))
        elif name in ("start_ms", "end_ms"):
            told.append(f"at {stamp(int(str(value)))}")
        elif name == "side":
            told.append(str(value) if value else "nobody")
        elif name == "points":
            told.append(f"{value} point{'' if value == 1 else 's'}")
        else:
            told.append(str(value))
    done = _DONE[decision.kind]
    return f"{done}: {', '.join(told)}" if told else done


def _judged(pairs: Iterable[Compared]) -> list[tuple[str, str]]:
    """The kinds of decision on what both looked at."""
    return [(pair.one.kind, pair.other.kind) for pair in pairs if pair.one and pair.other]

"""The command that searches an archive; what does the work is imported only once it runs."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hikite.cli.archiving import ArchiveOption

if TYPE_CHECKING:
    from collections.abc import Callable

    from hikite.archive import Archive, Query
    from hikite.archive.searches.hits import Found
    from hikite.archive.searches.queries import Link


class As(StrEnum):
    """What ``--to`` takes."""

    table = "table"
    json = "json"
    csv = "csv"
    captions = "captions"
    addresses = "addresses"


class Order(StrEnum):
    """What ``--order`` takes."""

    newest = "newest"
    oldest = "oldest"
    surest = "surest"


def _optional(name: str, about: str) -> object:
    return typer.Option(name, help=about, show_default=False)


Text = str | None


def add_to(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(search)


def search(
    archive: ArchiveOption,
    words: Annotated[
        list[str] | None, typer.Argument(help="What to find: a name, or an expression.", show_default=False)
    ] = None,
    side: Annotated[Text, _optional("--side", "red, blue or white.")] = None,
    by: Annotated[Text, _optional("--by", "Words of the name of who acted.")] = None,
    against: Annotated[Text, _optional("--against", "Words of the other one's name.")] = None,
    nation: Annotated[Text, _optional("--nation", "Whom the one who acted fights for.")] = None,
    holding: Annotated[list[str] | None, _optional("--holding", "A grip held; several: any.")] = None,
    status: Annotated[list[str] | None, _optional("--status", "completed, failed …; several: any.")] = None,
    kind: Annotated[list[str] | None, _optional("--kind", "technique, grip, hold …; several: any.")] = None,
    scored: Annotated[bool | None, typer.Option("--scored/--scoreless", help="Whether it scored.")] = None,
    points: Annotated[int | None, _optional("--points", "What it brought.")] = None,
    standing: Annotated[Text, _optional("--standing", "leading, level or behind, before it.")] = None,
    margin: Annotated[int | None, _optional("--margin", "By how many points at least.")] = None,
    clock: Annotated[Text, _optional("--clock", "Time left, as 1:00-0:00.")] = None,
    attempt: Annotated[int | None, _optional("--try", "Which try of the same technique.")] = None,
    after: Annotated[Text, _optional("--after", "What came before it: an expression.")] = None,
    within: Annotated[float | None, _optional("--within", "With --after: seconds between them.")] = None,
    said: Annotated[list[str] | None, _optional("--said", "A phrase of what was said.")] = None,
    rules: Annotated[Text, _optional("--rules", "Rule set, a key of `hikite rules`.")] = None,
    event: Annotated[Text, _optional("--event", "Words of the event's title.")] = None,
    since: Annotated[Text, _optional("--since", "First day, as 2026-05-09.")] = None,
    until: Annotated[Text, _optional("--until", "Last day.")] = None,
    sure: Annotated[float | None, _optional("--sure", "Least confidence, 0 to 1.")] = None,
    told: Annotated[bool, typer.Option("--told", help="Also recaps, suppositions, denials.")] = False,
    order: Annotated[Order, typer.Option("--order", help="What comes first.")] = Order.newest,
    limit: Annotated[int, typer.Option("--limit", min=1, max=10_000, help="How many at most.")] = 50,
    to: Annotated[As, typer.Option("--to", help="What to write.")] = As.table,
    out: Annotated[Path | None, _optional("--out", "captions: FOLDER for a file a recording.")] = None,
    why: Annotated[bool, typer.Option("--why", help="Explain each hit.")] = False,
) -> None:
    """Search an archive: by technique in any name, who, grip, score, clock, words, what came before."""
    from hikite.archive import Archive
    from hikite.archive import search as find
    from hikite.archive.errors import QueryError

    text = " ".join(words or ())
    with Archive.open(archive, once=True) as opened:
        try:
            given: dict[str, object] = {
                "side": side, "by": by, "against": against, "nation": nation, "holding": holding,
                "status": status, "kinds": kind, "scored": scored, "points": points, "standing": standing,
                "margin_least": margin, "attempt": attempt, "said": said, "ruleset": rules, "event": event,
                "since": since, "until": until, "sure": sure, "told": told or None, "order": order.value,
                "limit": limit, **_range(clock),
            }  # fmt: skip
            query = _query(opened, text, given, after, within)
            found = find(opened, query)
        except QueryError as error:
            raise typer.BadParameter(_pointed(text, error)) from None
        _write(opened, query, found, to, out, why)
    raise typer.Exit(0 if found.hits else 1)


def _query(
    archive: "Archive", text: str, given: dict[str, object], after: str | None, within: float | None
) -> "Query":
    """The expression's query with what the options add to it."""
    from pydantic import ValidationError

    from hikite.archive import Query
    from hikite.archive.errors import QueryError
    from hikite.archive.searches.expressions import read_expression
    from hikite.archive.searches.namings import is_name

    def knows(name: str) -> bool:
        return is_name(archive, name)

    begun = read_expression(text, knows) if text else Query()
    asked = {name: value for name, value in given.items() if value not in (None, [])}
    try:
        if after is not None:
            asked["links"] = (*begun.links, _after(after, within, knows))
        query = Query.model_validate({**begun.model_dump(exclude_unset=True), **asked})
    except ValidationError as error:
        first = error.errors()[0]
        raise QueryError(f"{'.'.join(map(str, first['loc']))}: {first['msg']}") from None
    if query == Query(order=query.order, limit=query.limit):
        raise QueryError("say what to look for: a name, an expression, or options")
    return query


def _after(text: str, within: float | None, knows: "Callable[[str], bool]") -> "Link":
    from hikite.archive.errors import QueryError
    from hikite.archive.searches.expressions import read_after
    from hikite.archive.searches.queries import Link

    try:
        told = read_after(text, knows)
    except QueryError as error:
        raise QueryError(f"--after {text!r}: {error.problem.rpartition(': ')[2]}") from None
    return Link.model_validate({**told.model_dump(exclude_unset=True), "within_s": within})


def _range(clock: str | None) -> dict[str, int]:
    """`1:00-0:00` as the two ends of the time left."""
    if clock is None:
        return {}
    from hikite.archive.errors import QueryError
    from hikite.archive.searches.expressions import read_expression

    ends = read_expression(f"clock {' to '.join(clock.split('-'))}")
    if ends.clock_from_s is None or ends.clock_to_s is None:
        raise QueryError(f"--clock takes a range such as 1:00-0:00, not {clock!r}")
    return {"clock_from_s": ends.clock_from_s, "clock_to_s": ends.clock_to_s}


def _pointed(text: str, error: Exception) -> str:
    """The error with the expression and a mark under the column it speaks of."""
    column = getattr(error, "column", None)
    return f"{error}\n  {text}\n  {' ' * (column - 1)}^" if column and text else str(error)


def _write(archive: "Archive", query: "Query", found: "Found", to: As, out: Path | None, why: bool) -> None:
    from hikite.archive.searches.hitlists import as_addresses, as_captions, as_csv, as_json, by_recording

    if out is not None and to is not As.captions:
        raise typer.BadParameter("only captions are written to a folder", param_hint="--out")
    if to is As.table:
        from hikite.cli.hits import show

        show(archive, query, found, why)
    elif to is As.captions:
        groups = by_recording(found)
        if out is None and len(groups) > 1:
            raise typer.BadParameter(
                f"the hits lie in {len(groups)} recordings, each with times of its own: --out FOLDER"
            )
        for hits in groups:
            if out is None:
                sys.stdout.write(as_captions(hits))
            else:
                from hikite.outputs.files import whole_file

                name = Path(hits[0].path or f"recording-{hits[0].recording}").name
                with whole_file(out / f"{name}.hits.vtt") as stream:
                    stream.write(as_captions(hits))
    else:
        text = {As.json: lambda: as_json(found, query), As.csv: lambda: as_csv(found)}
        sys.stdout.write(text.get(to, lambda: as_addresses(found))())

"""Names of the trade that begin like what is being typed."""

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from hikite.archive.errors import QueryError
from hikite.archive.searches.namings import naming
from hikite.terms.words import normalised
from hikite.web.pages.answers import room_of

_MOST = 12


def suggestions(request: Request) -> Response:
    """Labels with their concepts, by the beginning of any name; by sound where no name begins so."""
    typed = normalised(request.query_params.get("q", "")[:100])
    if len(typed) < 2:
        return JSONResponse([])
    with room_of(request).opened() as archive:
        rows = archive.db.execute(
            "SELECT c.id, c.label, min(n.normal), min(length(n.normal)) AS long FROM names n"
            " JOIN concepts c ON c.id = n.concept WHERE n.normal >= ? AND n.normal < ? AND n.rank < 3"
            " GROUP BY c.id ORDER BY long, c.label LIMIT ?",
            (typed, typed + "\U0010ffff", _MOST),
        ).fetchall()
        found = [{"label": label, "concept": id_, "name": name} for id_, label, name, _ in rows]
        if not found and "sound" in request.query_params:
            try:
                meant = naming(archive, typed)
                pairs = zip(meant.concepts, meant.labels, strict=True)
                found = [{"label": label, "concept": id_, "name": meant.how} for id_, label in pairs]
            except QueryError:
                found = []
    return JSONResponse(found)

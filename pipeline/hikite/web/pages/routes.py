"""Which address leads to which page."""

from starlette.routing import Route

from hikite.web.pages import (
    checks,
    comparisons,
    entrances,
    exports,
    media,
    names,
    numbers,
    readings,
    searches,
    shelves,
    verses,
)
from hikite.web.pages.answers import taken

ROUTES = (
    Route("/", shelves.shelves),
    Route("/enter", entrances.entrance, methods=["GET"]),
    Route("/enter", entrances.enter, methods=["POST"]),
    Route("/name", taken(entrances.sign), methods=["POST"]),
    Route("/signs", entrances.signs),
    Route("/search", searches.results),
    Route("/search.{form}", exports.hits),
    Route("/searches", taken(searches.keep), methods=["POST"]),
    Route("/searches/drop", taken(searches.drop), methods=["POST"]),
    Route("/numbers", numbers.numbers),
    Route("/names", names.suggestions),
    Route("/media/{number:int}", media.media),
    Route("/recordings/{number:int}", readings.reading),
    Route("/recordings/{number:int}/events/{event:int}", readings.event),
    Route("/recordings/{number:int}/record.{form}", exports.record),
    Route("/recordings/{number:int}/check", checks.first),
    Route("/recordings/{number:int}/check/{event:int}", checks.check, methods=["GET"]),
    Route("/recordings/{number:int}/check/{event:int}", taken(checks.decided), methods=["POST"]),
    Route("/recordings/{number:int}/verse/{verse:int}", verses.verse, methods=["GET"]),
    Route("/recordings/{number:int}/verse/{verse:int}", taken(verses.added), methods=["POST"]),
    Route("/recordings/{number:int}/undo", taken(checks.undone), methods=["POST"]),
    Route("/recordings/{number:int}/decisions", comparisons.decisions),
)

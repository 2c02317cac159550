"""schema.org in JSON-LD: the recording with its chapters as clips, and the bouts it was taken of."""

import json

from hikite.outputs.chapters import Chapter, bout_chapters, moment_chapters
from hikite.outputs.entries import BoutEntries, BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.identities import hash_name, media_name, moment_address, seconds
from hikite.outputs.phrases import CAUTION, winner_words
from hikite.process import Lexicon
from hikite.records import Competitor, Recording

Json = dict[str, object]
_APART_MS = 1_000


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    clips: list[Json] = []
    for chapter, bout in zip(bout_chapters(record), record.bouts, strict=False):
        for one in (chapter, *moment_chapters(bout, chapter, _APART_MS, lexicon.terms.same)):
            clips.append(_clip(one, record, _event_id(record, bout)))
    video: Json = {
        "@context": "https://schema.org",
        "@type": "VideoObject",
        "@id": media_name(record),
        "name": record.title or record.recording,
        "description": CAUTION,
        "url": record.address,
        "identifier": hash_name(record.sha256),
        "inLanguage": record.language or lexicon.language,
        "duration": f"PT{seconds(record.duration_ms)}S",
        "recordedAt": [_event(bout, record, lexicon) for bout in record.bouts],
        "hasPart": clips,
    }
    return json.dumps(_known(video), ensure_ascii=False, indent=1) + "\n"


def _event_id(record: BoutRecord, bout: BoutEntries) -> str:
    return f"{hash_name(record.sha256)}#bout-{bout.number}"


def _clip(chapter: Chapter, record: BoutRecord, event: str) -> Json:
    link = moment_address(record.address, chapter.start_ms, chapter.end_ms) if record.address else None
    return _known(
        {
            "@type": "Clip",
            "name": chapter.title,
            "startOffset": seconds(chapter.start_ms),
            "endOffset": seconds(chapter.end_ms),
            "url": link,
            "about": {"@id": event},
        }
    )


def _event(bout: BoutEntries, record: BoutRecord, lexicon: Lexicon) -> Json:
    rules = lexicon.rulesets.rulesets.get(bout.ruleset)
    names = " – ".join(one.name or one.side for one in bout.competitors)
    return _known(
        {
            "@type": "SportsEvent",
            "@id": _event_id(record, bout),
            "name": names or record.title or record.recording,
            "sport": rules.sport if rules else None,
            "startDate": record.date,
            "description": winner_words(bout),
            "competitor": [_person(one) for one in bout.competitors],
        }
    )


def _person(one: Competitor) -> Json:
    # A sheet's nation may as well be a town or a club: whoever wrestles for it is in its team.
    team = {"@type": "SportsTeam", "name": one.nation} if one.nation else None
    return _known({"@type": "Person", "name": one.name or one.side, "affiliation": team})


def _known(said: Json) -> Json:
    return {name: value for name, value in said.items() if value is not None}


FORMAT = Format(
    "schema-org", ".schema-org.jsonld", "schema.org: video, clips and sports events", False, _body
)

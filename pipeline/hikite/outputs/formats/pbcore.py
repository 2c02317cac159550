"""PBCore 2.1: the recording, a part a bout, and in it a part an entry, each with its start and end.

PBCore and not EBUCore, because there every part may carry its own times as plain attributes; the times of
EBUCore's parts hang on a technical description of the media, of which its talk tells nothing.
Elements and their order: https://pbcore.org/elements (public broadcasting's own documentation).
"""

from xml.etree import ElementTree as Xml

from hikite.outputs.entries import BoutEntries, BoutRecord, Entry
from hikite.outputs.formats.format import Format
from hikite.outputs.markup import XSI, add, document
from hikite.outputs.phrases import CAUTION, value_words, winner_words
from hikite.process import Lexicon
from hikite.records import Recording
from hikite.transcripts.stamps import clock

NAMESPACE = "http://www.pbcore.org/PBCore/PBCoreNamespace.html"
_SCHEMA = "https://raw.githubusercontent.com/WGBH/PBCore_2.1/master/pbcore-2.1.xsd"
_HASH, _OURS = "SHA-256 of the transcript", "hikite"


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    root = Xml.Element(
        "pbcoreDescriptionDocument",
        {"xmlns": NAMESPACE, "xmlns:xsi": XSI, "xsi:schemaLocation": f"{NAMESPACE} {_SCHEMA}"},
    )
    add(root, "pbcoreIdentifier", record.sha256, source=_HASH)
    if record.address:
        add(root, "pbcoreIdentifier", record.address, source="URI")
    add(root, "pbcoreTitle", record.title or record.recording)
    for name in _names(record):
        add(root, "pbcoreSubject", name, subjectType="person")
    told = [winner_words(bout) for bout in record.bouts] or ["No bout was found."]
    for sentence in told:
        add(root, "pbcoreDescription", sentence)
    if record.date:
        coverage = add(root, "pbcoreCoverage")
        add(coverage, "coverage", record.date)
        add(coverage, "coverageType", "Temporal")
    add(root, "pbcoreAnnotation", CAUTION)
    for bout in record.bouts:
        _bout(root, bout)
    return document(root)


def _names(record: BoutRecord) -> list[str]:
    return list(dict.fromkeys(one.name for bout in record.bouts for one in bout.competitors if one.name))


def _times(start_ms: int, end_ms: int) -> dict[str, str]:
    return {"startTime": clock(start_ms), "endTime": clock(end_ms), "timeAnnotation": "hh:mm:ss.ttt"}


def _bout(root: Xml.Element, bout: BoutEntries) -> None:
    part = add(root, "pbcorePart", partType="bout", **_times(bout.start_ms, bout.end_ms))
    add(part, "pbcoreIdentifier", f"b{bout.number}", source=_OURS)
    add(
        part, "pbcoreTitle", " – ".join(one.name or one.side for one in bout.competitors) or f"b{bout.number}"
    )
    add(part, "pbcoreDescription", winner_words(bout))
    add(part, "pbcoreAnnotation", bout.ruleset, annotationType="rule set")
    for entry in bout.entries:
        _entry(part, entry)


def _entry(bout: Xml.Element, entry: Entry) -> None:
    part = add(bout, "pbcorePart", partType=entry.kind, **_times(entry.start_ms, entry.end_ms))
    add(part, "pbcoreIdentifier", entry.id, source=_OURS)
    add(part, "pbcoreTitle", entry.label)
    add(part, "pbcoreSubject", entry.concept, subjectType="concept", source=_OURS)
    who = " ".join(name for name in (entry.side, entry.competitor) if name)
    worth = value_words(entry) if entry.counts else ""
    told = ", ".join(word for word in (who, entry.label, entry.status, worth) if word)
    said = f" “{entry.quotes[0].words}”" if entry.quotes else ""
    add(part, "pbcoreDescription", f"{told}{said}")
    add(part, "pbcoreAnnotation", f"{entry.confidence:.4f}", annotationType="confidence")


FORMAT = Format("pbcore", ".pbcore.xml", "PBCore 2.1: bouts and entries as timed parts", False, _body)

"""Dublin Core of the recording, in the XML that the Open Archives Initiative harvests (oai_dc).

The fifteen elements: https://www.dublincore.org/specifications/dublin-core/dces/; the wrapping:
http://www.openarchives.org/OAI/2.0/oai_dc.xsd. Whether it is a film or a sound, its talk does not tell:
there is no ``type``.
"""

from xml.etree import ElementTree as Xml

from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.identities import hash_name, media_name
from hikite.outputs.markup import XSI, add, document
from hikite.outputs.phrases import CAUTION, winner_words
from hikite.process import Lexicon
from hikite.records import Recording

DC = "http://purl.org/dc/elements/1.1/"
OAI_DC = "http://www.openarchives.org/OAI/2.0/oai_dc/"
_SCHEMA = "http://www.openarchives.org/OAI/2.0/oai_dc.xsd"
_SURE = 0.5
_SUBJECTS = ("technique", "hold")


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    root = Xml.Element(
        "oai_dc:dc",
        {
            "xmlns:oai_dc": OAI_DC,
            "xmlns:dc": DC,
            "xmlns:xsi": XSI,
            "xsi:schemaLocation": f"{OAI_DC} {_SCHEMA}",
        },
    )
    for name, text in _elements(record, lexicon):
        add(root, f"dc:{name}", text)
    return document(root)


def _elements(record: BoutRecord, lexicon: Lexicon) -> list[tuple[str, str]]:
    people = dict.fromkeys(one.name for bout in record.bouts for one in bout.competitors if one.name)
    subjects = {
        entry.label
        for bout in record.bouts
        for entry in bout.entries
        if entry.kind in _SUBJECTS and not entry.generic and entry.confidence >= _SURE
    }
    rules = dict.fromkeys(bout.ruleset for bout in record.bouts)
    names = [
        lexicon.rulesets.rulesets[key].name if key in lexicon.rulesets.rulesets else key for key in rules
    ]
    told = [
        ("title", record.title or record.recording),
        *(("subject", subject) for subject in (*people, *names, *sorted(subjects))),
        *(("description", winner_words(bout)) for bout in record.bouts),
        ("description", CAUTION),
        ("date", record.date or ""),
        ("identifier", media_name(record)),
        ("language", record.language or lexicon.language),
        ("relation", hash_name(record.sha256) if record.address else ""),
    ]
    return [(name, text) for name, text in told if text]


FORMAT = Format("dublin-core", ".dublin-core.xml", "Dublin Core of the recording, oai_dc", False, _body)

"""The formats that archives exchange, each read by a general library or held against the published names.

No test asks the network: contexts are written out here from the documents named beside them.
"""

import base64
import csv
import io
import json
import re
from decimal import Decimal
from xml.etree import ElementTree as Xml

import pytest
import webvtt
from csvw import CSVW
from handmade import handmade
from pyld import jsonld
from rdflib import Graph, Literal, URIRef
from rdflib import namespace as names_of

from hikite.outputs import FORMATS, record_of
from hikite.outputs.formats.columns import column
from hikite.outputs.formats.dublin_core import OAI_DC
from hikite.outputs.formats.pbcore import NAMESPACE
from hikite.outputs.identities import fragment, hash_name, moment_address
from hikite.records import Competitor, Sheet

FORMAT = {form.name: form for form in FORMATS}
OA, AS = "http://www.w3.org/ns/oa#", "http://www.w3.org/ns/activitystreams#"

# The terms used, as W3C's Web Annotation Vocabulary maps them (Recommendation of 2017-02-23, appendix A;
# http://www.w3.org/ns/anno.jsonld).
ANNOTATION_TERMS = {
    "id": "@id",
    "type": {"@id": "@type", "@type": "@id"},
    **{
        name: f"{OA}{name}"
        for name in (
            "Annotation", "TextualBody", "SpecificResource", "FragmentSelector", "TextQuoteSelector",
            "TextPositionSelector", "describing", "tagging", "exact", "prefix", "suffix", "start", "end",
        )
    },
    "AnnotationCollection": f"{AS}OrderedCollection",
    "AnnotationPage": f"{AS}OrderedCollectionPage",
    "Software": f"{AS}Application",
    "Text": "http://purl.org/dc/dcmitype/Text",
    "body": {"@id": f"{OA}hasBody", "@type": "@id"},
    "target": {"@id": f"{OA}hasTarget", "@type": "@id"},
    "source": {"@id": f"{OA}hasSource", "@type": "@id"},
    "selector": {"@id": f"{OA}hasSelector", "@type": "@id"},
    "motivation": {"@id": f"{OA}motivatedBy", "@type": "@vocab"},
    "purpose": {"@id": f"{OA}hasPurpose", "@type": "@vocab"},
    "conformsTo": {"@id": str(names_of.DCTERMS.conformsTo), "@type": "@id"},
    "generator": {"@id": f"{AS}generator", "@type": "@id"},
    "items": {"@id": f"{AS}items", "@type": "@id", "@container": "@list"},
    "first": {"@id": f"{AS}first", "@type": "@id"},
    "partOf": {"@id": f"{AS}partOf", "@type": "@id"},
    "total": f"{AS}totalItems",
    "startIndex": f"{AS}startIndex",
    "value": str(names_of.RDF.value),
    "format": str(names_of.DC.format),
    "language": str(names_of.DC.language),
    "name": "http://xmlns.com/foaf/0.1/name",
    "label": "http://www.w3.org/2000/01/rdf-schema#label",
}  # fmt: skip
CONTEXTS = {
    "http://www.w3.org/ns/anno.jsonld": ANNOTATION_TERMS,
    # schema.org: every term is in one vocabulary; the properties here whose values are addresses.
    "https://schema.org": {"@vocab": str(names_of.SDO), "url": {"@type": "@id"}},
}


def local(url, options):
    return {
        "contentType": "application/ld+json",
        "contextUrl": None,
        "documentUrl": url,
        "document": {"@context": CONTEXTS[url]},
    }


def written(name, recording, lexicon):
    form = FORMAT[name]
    return form.head + form.body(recording, record_of(recording, lexicon), lexicon)


def entries_of(record):
    return [entry for bout in record.bouts for entry in bout.entries]


def graph_of(document):
    """The triples of a JSON-LD document: read by PyLD, then by rdflib."""
    quads = jsonld.to_rdf(document, {"format": "application/n-quads", "documentLoader": local})
    return Graph().parse(data=quads, format="nt")


def addressed(recording, address="https://example.org/final#page"):
    sheet = Sheet(title="A & B <1>", date="2026-05-09", address=address)
    testimony = recording.testimony.model_copy(update={"sheet": sheet})
    return recording.model_copy(update={"testimony": testimony})


# RFC 6920, section 8.1: the name of "Hello World!" (the hash is in the RFC's figure 5).
def test_name_by_hash():
    digest = "7f83b1657ff1fc53b92dc18148a1d65dfc2d4b1fa3d677284addd200126d9069"
    assert hash_name(digest) == "ni:///sha-256;f4OxZX_x_FO5LcGBSKHWXfwtSx-j1ncoSt3SABJtkGk"
    assert base64.urlsafe_b64decode("f4OxZX_x_FO5LcGBSKHWXfwtSx-j1ncoSt3SABJtkGk=").hex() == digest


# W3C Media Fragments URI 1.0, 4.2.1: seconds in normal play time; the end lies behind the start.
@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ((0, 1500), "t=0,1.5"),
        ((10_000, 20_000), "t=10,20"),
        ((3_661_040, 3_661_040), "t=3661.04,3661.041"),
        ((100_000, 200_000), "t=100,200"),
    ],
)
def test_fragments(times, expected):
    assert fragment(*times) == expected
    assert moment_address("https://example.org/a?b=c", *times) == f"https://example.org/a?b=c#{expected}"


# Media Fragments, 4.1: dimensions are independent, one time each. RFC 3986: no spaces, ASCII alone.
@pytest.mark.parametrize(
    ("address", "expected"),
    [
        ("https://example.org/a#t=5&track=talk", "https://example.org/a#track=talk&t=1,2"),
        ("https://example.org/a b%20c/ü?x=1&y=2", "https://example.org/a%20b%20c/%C3%BC?x=1&y=2#t=1,2"),
    ],
)
def test_moments_of_odd_addresses(address, expected):
    assert moment_address(address, 1_000, 2_000) == expected


# Nothing is lost in expanding and compacting again: no key without a meaning in the context.
def test_annotations_mean_what_they_say(recording, lexicon):
    document = json.loads(written("annotations", recording, lexicon))
    expanded = jsonld.expand(document, {"documentLoader": local})
    again = jsonld.compact(expanded, document["@context"], {"documentLoader": local})
    assert again == document


# Web Annotation Data Model 3.1, 4.2.1, 4.2.4, 4.2.5, 5.1, 5.2: one target or more, the fragment's standard
# named, quotes and positions that agree with the text, totals that agree with the page.
def test_annotations_point_at_the_words(recording, record, lexicon):
    document = json.loads(written("annotations", recording, lexicon))
    text = " ".join(cue.text for cue in recording.transcript.cues)
    page = document["first"]
    assert page["partOf"] == document["id"]
    assert document["total"] == len(page["items"]) == len(entries_of(record)) > 2
    quoted = 0
    for item, entry in zip(page["items"], entries_of(record), strict=True):
        target = item["target"]
        moment, *words = target if isinstance(target, list) else [target]
        assert moment["selector"]["conformsTo"] == "http://www.w3.org/TR/media-frags/"
        start, end = map(float, re.fullmatch(r"t=([\d.]+),([\d.]+)", moment["selector"]["value"]).groups())
        assert start * 1000 == pytest.approx(entry.start_ms)
        assert start < end
        assert bool(words) == bool(entry.quotes)
        for one in words:
            quote, place = one["selector"]
            assert text[place["start"] : place["end"]] == quote["exact"] == entry.quotes[0].words
            around = quote["prefix"] + quote["exact"] + quote["suffix"]
            assert around in text
            quoted += 1
    assert quoted > 2


def test_annotations_as_triples(recordings, lexicon):
    recording = recordings["final-79kg.vtt"]
    document = json.loads(written("annotations", recording, lexicon))
    graph = graph_of(document)
    asked = """
        SELECT ?exact ?sure WHERE { ?a a oa:Annotation ; oa:hasTarget/oa:hasSelector ?quote ;
            <urn:hikite:entry:1.0#concept> "CONCEPT" ; <urn:hikite:entry:1.0#confidence> ?sure .
            ?quote a oa:TextQuoteSelector ; oa:exact ?exact }"""
    concept = _common(recording, lexicon)
    asked = asked.replace("CONCEPT", concept)
    expected = {
        (entry.quotes[0].words, entry.confidence)
        for entry in entries_of(record_of(recording, lexicon))
        if entry.concept == concept and entry.quotes
    }
    found = {(str(row.exact), float(row.sure)) for row in graph.query(asked, initNs={"oa": OA})}
    assert found == expected != set()
    assert len(set(graph.subjects(names_of.RDF.type, URIRef(f"{OA}Annotation")))) == document["total"]


def _common(recording, lexicon):
    """The technique named most."""
    named = [e.concept for e in entries_of(record_of(recording, lexicon)) if e.kind == "technique"]
    return max(sorted(set(named)), key=named.count)


# schema.org: every property and type is one that its vocabulary has (as rdflib lists it); a clip has a name
# and lies inside its video; an event has its competitors.
def test_schema_org(recording, record, lexicon):
    graph = graph_of(json.loads(written("schema-org", recording, lexicon)))
    terms = {p for p in graph.predicates() if p != names_of.RDF.type} | set(
        graph.objects(predicate=names_of.RDF.type)
    )
    assert len(terms) > 10
    assert all(term in names_of.SDO for term in terms)
    assert names_of.SDO["Clip"] in names_of.SDO
    assert URIRef(f"{names_of.SDO}Grip") not in names_of.SDO
    (video,) = graph.subjects(names_of.RDF.type, names_of.SDO.VideoObject)
    clips = list(graph.objects(video, names_of.SDO.hasPart))
    assert len(clips) >= len(record.bouts)
    for clip in clips:
        start, end = (
            float(graph.value(clip, name)) for name in (names_of.SDO.startOffset, names_of.SDO.endOffset)
        )
        assert 0 <= start < end <= record.duration_ms / 1000
        assert graph.value(clip, names_of.SDO.name)
        assert (graph.value(clip, names_of.SDO.about), names_of.RDF.type, names_of.SDO.SportsEvent) in graph
    named = {
        str(name)
        for one in graph.objects(predicate=names_of.SDO.competitor)
        for name in graph.objects(one, names_of.SDO.name)
    }
    assert named == {one.name or one.side for bout in record.bouts for one in bout.competitors}
    # Whoever wrestles for a nation, town or club is in its team; none of them is said to be a country.
    assert names_of.SDO.Country not in terms
    teams = {
        str(graph.value(team, names_of.SDO.name))
        for team in graph.objects(predicate=names_of.SDO.affiliation)
    }
    assert teams == {one.nation for bout in record.bouts for one in bout.competitors if one.nation}
    assert Literal(
        graph.value(video, names_of.SDO.duration), datatype=names_of.XSD.duration
    ).value.total_seconds() == (pytest.approx(record.duration_ms / 1000))


def test_clips_open_at_their_moments(lexicon):
    document = json.loads(written("schema-org", addressed(handmade()), lexicon))
    assert document["@id"] == "https://example.org/final#page"
    assert document["hasPart"]
    for clip in document["hasPart"]:
        assert clip["url"].startswith(f"https://example.org/final#page&t={clip['startOffset']},")


# W3C WebVTT, "metadata text": any text without an arrow; here JSON, as the published schema names the keys.
def test_metadata_track(recording, record, lexicon):
    text = written("metadata", recording, lexicon)
    cues = list(webvtt.from_string(text))
    by_id = {entry.id: entry for entry in entries_of(record)}
    assert sorted(cue.identifier for cue in cues) == sorted(by_id)
    assert [cue.start for cue in cues] == sorted(cue.start for cue in cues)
    for cue in cues:
        told, entry = json.loads(cue.text), by_id[cue.identifier]
        assert told["confidence"] == entry.confidence
        assert told["words"] == (entry.quotes[0].words if entry.quotes else None)
        assert cue.start_in_seconds < cue.end_in_seconds or cue.start < cue.end
        assert set(told) <= set(type(entry).model_fields) | {"words"}


def test_an_arrow_in_a_name_opens_no_cue(lexicon):
    recording = handmade()
    bout = recording.ledger.bouts[0]
    named = tuple(Competitor(side=one.side, name="A --> B") for one in bout.competitors)
    ledger = recording.ledger.model_copy(update={"bouts": (bout.model_copy(update={"competitors": named}),)})
    text = written("metadata", recording.model_copy(update={"ledger": ledger}), lexicon)
    cues = list(webvtt.from_string(text))
    assert text.count("-->") == len(cues) > 2
    assert "A --> B" in {json.loads(cue.text)["competitor"] for cue in cues}


# PBCore 2.1: elements of a description document and of a part in the order in which https://pbcore.org/elements
# lists them, their attributes as listed there; identifier, title and description are required.
PBCORE = (
    "pbcoreAssetType", "pbcoreAssetDate", "pbcoreIdentifier", "pbcoreTitle", "pbcoreSubject",
    "pbcoreDescription", "pbcoreGenre", "pbcoreRelation", "pbcoreCoverage", "pbcoreAudienceLevel",
    "pbcoreAudienceRating", "pbcoreCreator", "pbcoreContributor", "pbcorePublisher", "pbcoreRightsSummary",
    "pbcoreInstantiation", "pbcoreAnnotation", "pbcorePart", "pbcoreExtension",
)  # fmt: skip
PBCORE_ATTRIBUTES = {
    "pbcoreDescriptionDocument": set(),
    "pbcoreIdentifier": {"source", "ref", "version", "annotation"},
    "pbcoreSubject": {"subjectType", "startTime", "endTime", "timeAnnotation", "source", "ref"},
    "pbcoreAnnotation": {"annotationType", "ref"},
    "pbcorePart": {"partType", "partTypeSource", "startTime", "endTime", "timeAnnotation"},
}


def check_part(part):
    names = [child.tag.removeprefix(f"{{{NAMESPACE}}}") for child in part]
    assert names == sorted(names, key=PBCORE.index)
    assert {"pbcoreIdentifier", "pbcoreTitle", "pbcoreDescription"} <= set(names)
    for child, name in zip(part, names, strict=True):
        assert set(child.attrib) <= PBCORE_ATTRIBUTES.get(name, set())
        if name == "pbcoreIdentifier":
            assert child.get("source")
        if name == "pbcorePart":
            assert re.fullmatch(r"\d\d:\d\d:\d\d\.\d{3}", child.get("startTime"))
            assert child.get("startTime") <= child.get("endTime")
            check_part(child)


def test_pbcore(recording, record, lexicon):
    root = Xml.fromstring(written("pbcore", recording, lexicon).encode())
    assert root.tag == f"{{{NAMESPACE}}}pbcoreDescriptionDocument"
    assert root.get("{http://www.w3.org/2001/XMLSchema-instance}schemaLocation").startswith(f"{NAMESPACE} ")
    check_part(root)
    parts = root.findall(f"{{{NAMESPACE}}}pbcorePart")
    assert len(parts) == len(record.bouts)
    found = [one.findtext(f"{{{NAMESPACE}}}pbcoreIdentifier") for part in parts for one in part if len(one)]
    assert found == [entry.id for entry in entries_of(record)]


# Dublin Core Metadata Element Set 1.1 (the fifteen, as rdflib lists them) inside OAI's wrapping.
def test_dublin_core(recording, record, lexicon):
    root = Xml.fromstring(written("dublin-core", recording, lexicon).encode())
    assert root.tag == f"{{{OAI_DC}}}dc"
    told = [(child.tag, child.text) for child in root]
    assert all(URIRef(tag[1:].replace("}", "")) in names_of.DC and text for tag, text in told)
    assert not any(child.attrib for child in root)
    elements = [tag.rpartition("}")[2] for tag, _ in told]
    assert {"title", "identifier", "language", "description", "subject"} <= set(elements)
    subjects = [text for tag, text in told if tag.endswith("subject")]
    for bout in record.bouts:
        assert {one.name for one in bout.competitors if one.name} <= set(subjects)


# XML 1.0, 2.2 and 2.4: what is no character is left out, signs of markup are text.
@pytest.mark.parametrize("name", ["pbcore", "dublin-core"])
def test_xml_holds_any_text(name, lexicon):
    recording = addressed(handmade())
    sheet = recording.testimony.sheet.model_copy(update={"title": "A & B <1>\x00\x0b\ufffe"})
    testimony = recording.testimony.model_copy(update={"sheet": sheet})
    text = written(name, recording.model_copy(update={"testimony": testimony}), lexicon)
    titles = [one.text for one in Xml.fromstring(text.encode()).iter() if one.tag.lower().endswith("title")]
    assert titles[0] == "A & B <1>"


# W3C CSV on the Web, read and checked by a library of its own: every cell has the type it is said to have.
def test_columns_describe_the_table(recording, record, lexicon, tmp_path):
    table = tmp_path / f"{record.recording}.csv"
    table.write_text(written("csv", recording, lexicon), "utf-8", newline="")
    described = tmp_path / f"{record.recording}.csv-metadata.json"
    described.write_text(written("columns", recording, lexicon), "utf-8")
    checked = CSVW(str(described))
    assert checked.is_valid
    (only,) = checked.tables
    rows = list(only.iterdicts(strict=True))
    assert [row["confidence"] for row in map(dict, rows)] == [
        Decimal(str(entry.confidence)) for entry in entries_of(record)
    ]
    assert [row["counts"] for row in rows] == [entry.counts for entry in entries_of(record)]
    assert [row["attributes"] for row in rows] == [list(entry.attributes) for entry in entries_of(record)]


# A cell of the wrong type, or no cell where one must be, is found by the same check.
@pytest.mark.parametrize(
    ("column_", "cell"), [("start_ms", "soon"), ("counts", "maybe"), ("confidence", "7")]
)
def test_a_wrong_cell_is_found(column_, cell, lexicon, tmp_path):
    rows = list(csv.DictReader(io.StringIO(written("csv", handmade(), lexicon), newline="")))
    rows[0][column_] = cell
    with (tmp_path / "by-hand.vtt.csv").open("w", newline="") as stream:
        writer = csv.DictWriter(stream, rows[0])
        writer.writeheader()
        writer.writerows(rows)
    described = tmp_path / "by-hand.vtt.csv-metadata.json"
    described.write_text(written("columns", handmade(), lexicon), "utf-8")
    with pytest.raises(ValueError, match=column_):
        list(CSVW(str(described)).tables[0].iterdicts(strict=True))


@pytest.mark.parametrize(
    ("name", "datatype", "required"),
    [
        ("start_ms", "nonNegativeInteger", True),
        ("points", "integer", False),
        ("label", "string", True),
        ("side", "string", False),
    ],
)
def test_columns(name, datatype, required):
    assert (column(name)["datatype"], column(name)["required"]) == (datatype, required)

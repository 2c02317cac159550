"""Every shape read back by the library it is for; all of them hold the same labels."""

import csv
import json

import pyarrow.parquet
import pytest
import spacy
from spacy.tokens import Doc, DocBin
from spacy.training import Corpus
from spacy.training.converters import conll_ner_to_docs

from hikite.archive import Archive
from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import Change, decide
from hikite.datasets import Plan, write_dataset
from hikite.datasets.errors import DatasetError
from hikite.datasets.plans import PARTS, SHAPES
from hikite.datasets.shapes import tables
from hikite.outputs.documents import GROUP


@pytest.fixture(scope="module")
def written(kept, lexicon, tmp_path_factory):
    folder = tmp_path_factory.mktemp("made") / "data"
    with Archive.open(kept) as archive:
        counts = write_dataset(archive, folder, Plan(shapes=SHAPES), lexicon)
    return folder, counts


def lines(folder):
    return [
        json.loads(line)
        for part in PARTS
        for line in (folder / f"lines/{part}.jsonl").read_text("utf-8").splitlines()
    ]


def docs(folder):
    vocab = spacy.blank("en").vocab
    return [
        doc
        for part in PARTS
        for file in sorted((folder / f"documents/{part}").glob("*.spacy"))
        for doc in DocBin().from_disk(file).get_docs(vocab)
    ]


# Character offsets are of the text as it stands in the line.
def test_lines(written, archive):
    folder, _ = written
    found = lines(folder)
    assert len(found) == sum(1 for _ in archive.recordings())
    for line in found:
        assert line["spans"]
        for span in line["spans"]:
            if span["words"] is not None:
                assert line["text"][span["start"] : span["stop"]] == span["words"]
            assert span["confidence"] >= 0.5
        assert [start for start, _, _ in line["tokens"]] == sorted(start for start, _, _ in line["tokens"])
        said = [line["text"][start:stop] for start, stop, _ in line["tokens"]]
        assert all(word.strip() == word != "" for word in said)


# The labels of the records themselves, no more and no fewer.
def test_lines_hold_the_record(written, archive, lexicon):
    from hikite.outputs import record_of

    by_hash = {line["recording"]: line for line in lines(written[0])}
    for kept in archive.recordings():
        record = record_of(archive.reading(kept.id), lexicon)
        expected = [e.id for b in record.bouts for e in b.entries if e.confidence >= 0.5]
        assert [span["id"] for span in by_hash[kept.sha256]["spans"]] == expected


def test_documents(written):
    folder, _ = written
    for line, doc in zip(lines(folder), docs(folder), strict=True):
        assert doc.text == line["text"]
        assert doc.user_data["recording"] == line["recording"]
        spans = [span for span in line["spans"] if span["words"]]
        assert [(one.label_, one.kb_id_) for one in doc.spans[GROUP]] == [
            (span["kind"], span["concept"]) for span in spans
        ]
        assert doc.ents
        assert {(one.start, one.end, one.label_) for one in doc.ents} <= {
            (one.start, one.end, one.label_) for one in doc.spans[GROUP]
        }
        assert 3 < len(list(doc.sents)) < len(doc)


# What `spacy train` reads: a folder of files, whole or with a limit to the length.
def test_documents_are_a_corpus(written):
    folder, _ = written
    examples = list(Corpus(folder / "documents/train")(spacy.blank("en")))
    assert len(examples) == 5
    assert all(example.reference.ents for example in examples)


# spaCy's own reader of CoNLL's columns finds the same entities.
def test_iob(written):
    folder, _ = written
    read = []
    for part in PARTS:
        text = (folder / f"iob/{part}.iob").read_text("utf-8")
        assert all(len(row.split(" ")) == 3 for row in text.splitlines() if row)
        read += [Doc.from_docs(list(each)) for each in by_recording(text)]
    ours = docs(folder)
    assert list(map(entities, read)) == list(map(entities, ours))


def entities(doc):
    return [([token.text for token in one if not token.is_space], one.label_) for one in doc.ents]


def by_recording(text):
    for recording in text.split("-DOCSTART- _ O\n\n")[1:]:
        yield conll_ner_to_docs("-DOCSTART- -X- O O\n\n" + recording, n_sents=0, no_print=True)


def test_tables(written):
    folder, counts = written
    found = {name: pyarrow.parquet.read_table(folder / f"tables/{name}.parquet") for name in tables._TABLES}
    assert found["recordings"].num_rows == len(lines(folder))
    assert found["labels"].num_rows == sum(sums["labels"] for sums in counts.sums.values())
    spans = {(line["recording"], span["id"]): span for line in lines(folder) for span in line["spans"]}
    for row in found["labels"].to_pylist():
        span = spans[row["recording"], row["id"]]
        assert {name: row[name] for name in span} == span
    assert not found["labels"].schema.field("concept").nullable
    assert found["labels"].schema.field("points").nullable
    assert {row["recording"] for row in found["bouts"].to_pylist()} == set(
        found["recordings"].column("recording").to_pylist()
    )


def test_card_and_list_agree(written):
    folder, _ = written
    card = (folder / "README.md").read_text("utf-8")
    with (folder / "recordings.csv").open(newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert [sum(row["part"] == part for row in rows) for part in PARTS] == [5, 1, 1]
    assert "| recordings | 5 | 1 | 1 | 7 |" in card
    total = sum(int(row["labels"]) for row in rows)
    assert card.count(f"| {total:,} |\n") >= 1
    for must in (
        "seed 1",
        "at least 0.5 sure",
        "qualified coach",
        "Known limits",
        rows[0]["tool"],
        rows[0]["lexicon"],
    ):
        assert must in card


def test_the_same_again(written, archive, lexicon, tmp_path):
    folder, _ = written
    write_dataset(archive, tmp_path / "again", Plan(shapes=SHAPES), lexicon)
    files = sorted(file.relative_to(folder) for file in folder.rglob("*") if file.is_file())
    assert len(files) >= 14
    for file in files:
        assert (folder / file).read_bytes() == (tmp_path / "again" / file).read_bytes(), file


# What a person said counts whatever the threshold, and is marked; --machine leaves it out.
def test_decisions_are_labels(own, lexicon, tmp_path):
    event = next(event for event in own.events() if event.kind == "technique" and not event.counts)
    decide(own, "Odrun", "correct", anchor_of(own, event.id), Change(concept="o-goshi"))
    sha = own.recording(event.recording).sha256
    for machine, expected in ((False, ["o-goshi"]), (True, [])):
        folder = tmp_path / f"data-{machine}"
        write_dataset(own, folder, Plan(shapes=("lines",), least=1.0, machine=machine), lexicon)
        spans = next(line for line in lines(folder) if line["recording"] == sha)["spans"]
        assert [span["concept"] for span in spans if span["checked"]] == expected
        assert all(span["confidence"] == 1.0 or span["checked"] for span in spans)


# Whole or not at all: nothing is written over, nothing half-written is left.
def test_what_stands_there_stays(archive, lexicon, tmp_path):
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "mine.txt").write_text("mine")
    with pytest.raises(DatasetError, match="stands there already"):
        write_dataset(archive, folder, Plan(), lexicon)
    assert [file.name for file in tmp_path.iterdir()] == ["data"]
    assert (folder / "mine.txt").read_text() == "mine"


def test_an_error_leaves_nothing(archive, lexicon, tmp_path):
    def stop(done, of):
        if done == 3:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_dataset(archive, tmp_path / "data", Plan(), lexicon, stop)
    assert list(tmp_path.iterdir()) == []


def test_an_empty_archive(lexicon, tmp_path):
    with (
        Archive.open(tmp_path / "empty.archive", write=True) as empty,
        pytest.raises(DatasetError, match="no recordings"),
    ):
        write_dataset(empty, tmp_path / "data", Plan(), lexicon)
    assert not (tmp_path / "data").exists()

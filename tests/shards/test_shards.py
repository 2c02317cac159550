"""Shards: the same records as on one machine, nothing done twice, nothing half done."""

import gzip
import json
import shutil
import time
from pathlib import Path

import pytest

from commentaries import write
from hikite.archive import Archive
from hikite.archive.checks import find_faults
from hikite.archive.keeping import keep_files
from hikite.archive.stamps import load_stamps
from hikite.terms.aliases import Alias, write_alias

REASON = "shards need the extra 'many'"
pq = pytest.importorskip("pyarrow.parquet", reason=REASON)
pytest.importorskip("fsspec", reason=REASON)
pytest.importorskip("distributed", reason=REASON)

from hikite.shards import deal, gather, spread  # noqa: E402
from hikite.shards.errors import ShardError  # noqa: E402
from hikite.shards.lines import lines_of, packed  # noqa: E402
from hikite.shards.places import Place  # noqa: E402
from hikite.shards.working import DONE, work  # noqa: E402

SAMPLES = Path(__file__).parents[2] / "samples"
TIMES = {"kept_at", "since", "at"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """Six invented recordings and three samples, one of them twice, and a file that is none."""
    talk = tmp_path_factory.mktemp("corpus") / "talk"
    write(talk, 6, lines=30)
    for name in ("final-79kg.vtt", "cadets-mat-one.vtt", "golden-score.ctm"):
        shutil.copy(SAMPLES / name, talk)
        shutil.copy(SAMPLES / f"{name}.sheet.toml", talk)
    shutil.copy(talk / "bout-00002.vtt", talk / "copy.vtt")
    (talk / "bad.vtt").write_text("no captions here", "utf-8")
    return talk


@pytest.fixture(scope="module")
def shards(folder: Path) -> Path:
    target = folder.parent / "shards"
    told = deal((folder,), str(target), each=3)
    assert (told.shards, told.recordings, told.refused) == (4, 9, 1)
    return target


@pytest.fixture(scope="module")
def records(shards: Path) -> Path:
    """Read on a cluster of this machine with two workers."""
    target = shards.parent / "records"
    told = spread(str(shards), str(target), workers=2)
    assert (len(told.worked), told.failed) == (4, ())
    assert not any(one.before for one in told.worked)
    return target


def contents(archive: Archive) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table but the times at which it was written."""
    db, whole = archive.db, {}
    tables = db.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    for (table,) in tables.fetchall():
        if table.startswith("talk_words_"):
            continue
        columns = [row[1] for row in db.execute(f"PRAGMA table_info({table})") if row[1] not in TIMES]
        whole[table] = db.execute(f"SELECT {', '.join(columns)} FROM {table}").fetchall()
    return whole


def test_an_archive_gathered_is_the_archive_kept(folder: Path, records: Path, tmp_path: Path) -> None:
    with Archive.open(tmp_path / "kept", write=True) as kept:
        keep_files(kept, (folder,), jobs=1)
        with Archive.open(tmp_path / "gathered", write=True) as gathered:
            told = gather(gathered, str(records))
            assert (told.put, told.same, told.refused, told.unfinished) == (9, 0, 1, 0)
            one, other = contents(kept), contents(gathered)
            assert len(one["events"]) > 200
            assert one.keys() == other.keys()
            for table, rows in one.items():
                assert sorted(map(repr, other[table])) == sorted(map(repr, rows)), table
            assert find_faults(gathered, deep=True) == find_faults(kept, deep=True) == ()
            # Gathered again nothing is written, and keeping finds nothing to do.
            again = gather(gathered, str(records))
            assert (again.put, again.same) == (0, 9)
            after = keep_files(gathered, (folder,), jobs=1)
            assert (after.new, after.again, after.edited, after.copies) == (0, 0, 0, 0)


def test_corrected_names_go_to_the_workers(tmp_path: Path) -> None:
    """What the reading room keeps beside an archive is read on a cluster as it is here."""
    talk = tmp_path / "talk"
    (said,) = write(talk, 1, lines=30)
    said.write_text(said.read_text("utf-8").replace("inner thigh", "blorfing zandle"), "utf-8")
    names = tmp_path / "gathered.aliases.toml"
    alias = Alias(
        words="blorfing zandle",
        concept="uchi-mata",
        language="en",
        who="Odrun",
        when="2026-05-09",
        where="here",
    )
    write_alias(names, alias)
    shutil.copy(names, tmp_path / "kept.aliases.toml")
    deal((talk,), str(tmp_path / "shards"))
    spread(str(tmp_path / "shards"), str(tmp_path / "plain"))
    spread(str(tmp_path / "shards"), str(tmp_path / "records"), aliases=(names,))
    with (
        Archive.open(tmp_path / "gathered", write=True) as gathered,
        Archive.open(tmp_path / "kept", write=True) as kept,
    ):
        with pytest.raises(ShardError, match="--aliases"):
            gather(gathered, str(tmp_path / "plain"))
        gather(gathered, str(tmp_path / "records"))
        keep_files(kept, (talk,), jobs=1)
        one, other = contents(kept), contents(gathered)
        for table, rows in one.items():
            assert sorted(map(repr, other[table])) == sorted(map(repr, rows)), table
        assert any(event.concept == "uchi-mata" for event in gathered.events())


def test_what_is_finished_is_not_done_again(shards: Path, records: Path, tmp_path: Path) -> None:
    mine = shutil.copytree(records, tmp_path / "records")
    # A run that was ended: one shard without its last file, its first table cut off.
    (mine / "shard=00001" / DONE).unlink()
    whole = (mine / "shard=00001" / "events.parquet").read_bytes()
    (mine / "shard=00001" / "events.parquet").write_bytes(whole[:100])
    with Archive.open(tmp_path / "early", write=True) as early:
        told = gather(early, str(mine))
        assert (told.shards, told.unfinished, told.put) == (3, 1, 6 if told.refused else 7)
    before = {file: file.stat().st_mtime_ns for file in mine.rglob("*.parquet")}
    stamps = load_stamps()
    worked = [work(str(shards), file.name, str(mine), stamps) for file in sorted(shards.iterdir())]
    assert [one.before for one in worked] == [True, False, True, True]
    assert (mine / "shard=00001" / "events.parquet").read_bytes() == whole
    changed = {file.parent.name for file in before if file.stat().st_mtime_ns != before[file]}
    assert changed == {"shard=00001"}
    assert not list(mine.rglob("*.part"))


def test_what_changed_is_done_again(shards: Path, records: Path, tmp_path: Path) -> None:
    """Another line in a shard; other words."""
    mine, dealt = shutil.copytree(records, tmp_path / "records"), shutil.copytree(shards, tmp_path / "shards")
    lines = lines_of("00003.jsonl.gz", (dealt / "00003.jsonl.gz").read_bytes())
    (dealt / "00003.jsonl.gz").write_bytes(packed(list(lines[:-1])))
    stamps = load_stamps()
    assert not work(str(dealt), "00003.jsonl.gz", str(mine), stamps).before
    with pytest.raises(ShardError, match="another version"):
        work(str(dealt), "00002.jsonl.gz", str(mine), stamps.model_copy(update={"words": "other"}))
    done = mine / "shard=00000" / DONE
    told = json.loads(done.read_text("utf-8"))
    told["stamps"]["words"] = "other"
    done.write_text(json.dumps(told), "utf-8")
    with Archive.open(tmp_path / "a", write=True) as archive, pytest.raises(ShardError, match="spread it"):
        gather(archive, str(mine))
    assert not work(str(dealt), "00000.jsonl.gz", str(mine), stamps).before


def test_the_same_files_give_the_same_shards(folder: Path, shards: Path, tmp_path: Path) -> None:
    time.sleep(1.1)
    deal((folder,), str(tmp_path), each=3)
    for file in shards.iterdir():
        assert (tmp_path / file.name).read_bytes() == file.read_bytes()
    # An earlier deal's last shards would be read along with the new ones.
    with pytest.raises(ShardError, match="a place of its own"):
        deal((folder,), str(tmp_path), each=3)


def test_plain_lines_and_parquet_are_shards_too(shards: Path, tmp_path: Path) -> None:
    import pyarrow as pa

    body = (shards / "00001.jsonl.gz").read_bytes()
    lines = lines_of("00001.jsonl.gz", body)
    assert lines_of("a.jsonl", gzip.decompress(body)) == lines
    rows = [
        {"path": line.places[0].path, "transcript": line.transcript.model_dump_json(),
         "sheet": line.sheet.model_dump_json(), "sheet_sha256": line.sheet_sha256}
        for line in lines if line.transcript
    ]  # fmt: skip
    pq.write_table(pa.Table.from_pylist(rows), tmp_path / "a.parquet")
    read = lines_of("a.parquet", (tmp_path / "a.parquet").read_bytes())
    assert [(one.transcript, one.sheet) for one in read] == [(one.transcript, one.sheet) for one in lines]


@pytest.mark.parametrize(
    ("file", "body"),
    [("a.jsonl", b"{"), ("a.jsonl", b'{"belt": 1}'), ("a.jsonl.gz", b"no gzip"), ("a.parquet", b"no table")],
)
def test_what_is_no_shard_is_said(file: str, body: bytes) -> None:
    with pytest.raises(ShardError, match=r"^a\.(jsonl|parquet)"):
        lines_of(file, body)


def test_a_shard_that_fails_does_not_keep_the_others(shards: Path, tmp_path: Path) -> None:
    dealt = tmp_path / "shards"
    dealt.mkdir()
    shutil.copy(shards / "00001.jsonl.gz", dealt)
    (dealt / "00009.jsonl").write_text("{", "utf-8")
    told = spread(str(dealt), str(tmp_path / "records"), workers=1)
    assert [one.shard for one in told.worked] == ["00001.jsonl.gz"]
    assert [one.path for one in told.failed] == ["00009.jsonl"]
    assert "00009.jsonl:1" in told.failed[0].reason
    shutil.copy(shards / "00001.jsonl.gz", dealt / "00009.jsonl.gz")
    with pytest.raises(ShardError, match="several shards are called 00009"):
        spread(str(dealt), str(tmp_path / "records"))
    with pytest.raises(ShardError, match="no shards here"):
        spread(str(tmp_path / "nowhere"), str(tmp_path / "records"))


def test_any_address_will_do(folder: Path) -> None:
    """fsspec's file system in memory stands for the others."""
    deal((folder / "final-79kg.vtt",), "memory://dealt")
    worked = work("memory://dealt", "00000.jsonl.gz", "memory://read", load_stamps())
    assert worked.done.recordings == 1
    assert "events.parquet" in Place("memory://read/shard=00000").names()
    assert not any(name.endswith(".part") for name in Place("memory://read/shard=00000").names())
    with pytest.raises(ShardError, match="no such kind"):
        Place("nowhere-at-all://x")


def test_asked_where_they_lie(folder: Path, records: Path, tmp_path: Path) -> None:
    """DuckDB counts in the Parquet files what the archive counts."""
    duckdb = pytest.importorskip("duckdb", reason="asking in place needs DuckDB")
    asked = duckdb.sql(
        f"SELECT concept, count(*) FROM read_parquet('{records}/*/events.parquet', hive_partitioning = true)"
        " WHERE kind = 'technique' AND status = 'completed' GROUP BY concept"
    ).fetchall()
    with Archive.open(tmp_path / "gathered", write=True) as archive:
        gather(archive, str(records))
        kept = archive.db.execute(
            "SELECT concept, count(*) FROM events"
            " WHERE kind = 'technique' AND status = 'completed' GROUP BY concept"
        ).fetchall()
    assert sorted(asked) == sorted(kept) != []

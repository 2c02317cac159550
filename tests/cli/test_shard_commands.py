"""The commands for shards, from recordings to an archive."""

from pathlib import Path

import pytest

REASON = "shards need the extra 'many'"
for needed in ("pyarrow", "fsspec", "distributed"):
    pytest.importorskip(needed, reason=REASON)


def test_dealt_spread_and_gathered(hikite, tmp_path: Path, samples: Path, monkeypatch) -> None:
    monkeypatch.setenv("HIKITE_ARCHIVE", str(tmp_path / "bouts.archive"))
    shards, records = tmp_path / "shards", tmp_path / "records"
    files = samples / "final-79kg.vtt", samples / "milo.txt"
    dealt = hikite("deal", *files, "--to", shards, "--each", 1)
    assert (dealt.code, dealt.out) == (0, "2 recordings in 2 shards; 0 refused\n")
    told = hikite("spread", shards, "--to", records, "--workers", 1)
    assert (told.code, told.out.splitlines()[0]) == (0, "2 shards done, 0 as before, 0 failed")
    again = hikite("spread", shards, "--to", records, "--workers", 1)
    assert again.out == "0 shards done, 2 as before, 0 failed\n"
    kept = hikite("gather", records)
    assert (kept.code, kept.out) == (0, "2 shards: 2 recordings put, 0 as before, 0 refused\n")
    assert hikite("keep", *files).out.startswith("2 looked at; 2 as before")
    assert hikite("search", "ura nage").code == 0
    (records / "shard=00001" / "done.json").unlink()
    assert hikite("gather", records).code == 1
    (shards / "00002.jsonl").write_text("{", "utf-8")
    failed = hikite("spread", shards, "--to", records, "--workers", 1)
    assert (failed.code, "00002.jsonl:1" in failed.err) == (1, True)
    assert hikite("spread", tmp_path, "--to", records).code == 1

"""Where a transcript may come from, and what is told of it."""

import hashlib
import io
import subprocess
import sys
from pathlib import Path

import pytest

from hikite.errors import TranscriptError
from hikite.transcripts import read, reading, write

DATA = b"WEBVTT\n\n00:00.000 --> 00:01.000\ngo\n"


def test_path_stream_and_bytes_are_read_alike(tmp_path: Path) -> None:
    path = tmp_path / "bout.txt"
    path.write_bytes(DATA)
    from_path = read(path, name="bout")
    assert from_path == read(str(path), name="bout") == read(DATA, name="bout")
    assert from_path == read(io.BytesIO(DATA), name="bout") == read(io.StringIO(DATA.decode()), name="bout")
    assert (read(path).source, read(DATA).source) == (str(path), "-")
    assert from_path.sha256 == hashlib.sha256(DATA).hexdigest()
    # what it holds counts, not what it is called
    assert from_path.format == "webvtt"


def test_a_missing_file_and_a_folder(tmp_path: Path) -> None:
    with pytest.raises(TranscriptError, match=r"none\.vtt: cannot be read: No such file"):
        read(tmp_path / "none.vtt")
    with pytest.raises(TranscriptError, match="cannot be read: Is a directory"):
        read(tmp_path)
    with pytest.raises(TranscriptError, match="cannot be read"):
        read("a\0b")


def test_the_largest_size(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "LARGEST_BYTES", 1 << 20)
    assert read(DATA + b"\n" * (1 << 19)).cues
    with pytest.raises(TranscriptError, match="x: larger than 1 MiB"):
        read(DATA + b"\n" * (1 << 20), name="x")


def test_writing_to_an_unknown_format() -> None:
    with pytest.raises(TranscriptError, match="no format is named 'doc'; known are webvtt, ttml"):
        write(read(DATA), "doc")


def test_importing_is_light() -> None:
    program = "import sys, hikite.transcripts; print(*sorted(sys.modules))"
    loaded = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    ).stdout.split()
    assert "hikite.transcripts" in loaded
    assert not {"charset_normalizer", "numpy", "spacy", "ttconv", "webvtt", "pysubs2"} & set(loaded)

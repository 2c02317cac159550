"""A file is written whole or not at all."""

import os

import pytest

from hikite.outputs.files import whole_file


def test_the_new_takes_the_place_of_the_old(tmp_path):
    file = tmp_path / "deep" / "a.txt"
    for text in ("one\r\n", "two – ¾"):
        with whole_file(file) as stream:
            stream.write(text)
        assert file.read_bytes().decode() == text
    assert os.listdir(file.parent) == ["a.txt"]


def broken_off(file):
    with whole_file(file) as stream:
        stream.write("half a ")
        stream.flush()
        assert file.read_text() == "old"
        raise KeyboardInterrupt


def test_after_an_error_nothing_changed(tmp_path):
    file = tmp_path / "a.txt"
    file.write_text("old")
    with pytest.raises(KeyboardInterrupt):
        broken_off(file)
    assert file.read_text() == "old"
    assert os.listdir(tmp_path) == ["a.txt"]

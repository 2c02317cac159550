"""Names corrected by reviewers: the next run over the archive goes by them, and only then."""

from pathlib import Path

from hikite.archive import Archive
from hikite.archive.keeping import aliases_of, keep_files
from hikite.terms.aliases import Alias, write_alias

TALK = """WEBVTT

00:01.000 --> 00:05.000
Here we go, Marrow in red, Teale in blue.

00:10.000 --> 00:14.000
Marrow goes for the purple lantern, and he scores two.
"""


def test_a_corrected_name_is_found_by_the_next_run(tmp_path: Path) -> None:
    file = tmp_path / "bout.vtt"
    file.write_text(TALK, "utf-8")
    with Archive.open(tmp_path / "bouts.archive", write=True) as archive:
        keep_files(archive, (file,))
        assert "uchi-mata" not in {event.concept for event in archive.events(1)}
        write_alias(
            aliases_of(archive.file),
            Alias(
                words="purple lantern", concept="uchi-mata", language="en", who="Odrun",
                when="2026-03-01", where="bout.vtt 0:10",
            ),
        )  # fmt: skip
        assert keep_files(archive, (file,)).again == 1
        assert "uchi-mata" in {event.concept for event in archive.events(1)}
        assert keep_files(archive, (file,)).again == 0

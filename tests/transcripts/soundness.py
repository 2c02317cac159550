"""What holds for every transcript, whatever file it was read from."""

from hikite.records import Transcript


def check(transcript: Transcript) -> None:
    """Assert that all is of its type, times are in order and inside, and that the words are the text."""
    assert Transcript.model_validate(transcript.model_dump(), strict=True) == transcript
    starts = [cue.start_ms for cue in transcript.cues]
    assert starts == sorted(starts)
    ends: dict[str | None, int] = {}
    for cue in transcript.cues:
        assert 0 <= cue.start_ms < cue.end_ms
        assert cue.line >= 1
        assert cue.words
        assert cue.text == " ".join(cue.text.split())
        # nobody speaks two cues at once, and a nameless voice may be anybody's
        rivals = ends.values() if cue.speaker is None else [ends.get(cue.speaker, 0), ends.get(None, 0)]
        assert all(end <= cue.start_ms for end in rivals)
        ends[cue.speaker] = cue.end_ms
        offset, time = 0, cue.start_ms
        for word in cue.words:
            assert word.text
            assert cue.text[word.start : word.stop] == word.text
            assert cue.text[offset : word.start] in ("", " ")
            assert time <= word.start_ms <= word.end_ms <= cue.end_ms
            assert word.probability is None or 0 <= word.probability <= 1
            offset, time = word.stop, word.end_ms
        assert offset == len(cue.text)
    assert all(mending.line >= 1 for mending in transcript.mendings)

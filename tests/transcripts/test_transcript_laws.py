"""Written and read again, a transcript is the same wherever its format can carry it."""

import json
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from soundness import check

from hikite.records import Cue, Transcript
from hikite.transcripts import read, write

# Anything but white space and what nobody can say: controls, surrogates, marks of byte order.
ANY = st.characters(
    exclude_categories=("Cc", "Cs", "Zs", "Zl", "Zp"), exclude_characters="\ufeff\ufffe\uffff"
)
# Where a format has no escapes, what it would take for markup, a speaker or a time cannot be carried.
PLAIN = st.sampled_from(string.ascii_lowercase + string.digits + ".,!?'éжあ内")

NOTHING = st.none()


def texts(letters: st.SearchStrategy[str], most: int = 8) -> st.SearchStrategy[str]:
    return st.text(letters, min_size=1, max_size=most)


@st.composite
def transcripts(
    draw: st.DrawFn,
    letters: st.SearchStrategy[str] = ANY,
    labels: st.SearchStrategy[str | None] = NOTHING,
    speakers: st.SearchStrategy[str | None] = NOTHING,
    settings: st.SearchStrategy[str | None] = NOTHING,
    probabilities: bool = False,
) -> Transcript:
    """A transcript of sound cues, each begun by a word of its own so that none repeats another."""
    segments, at = [], 0
    for number in range(draw(st.integers(1, 4))):
        start = at + draw(st.integers(0, 5000))
        at, words, said = start, [], [f"w{number}", *draw(st.lists(texts(letters), max_size=4))]
        for word in said:
            begin = at + draw(st.integers(1, 900))
            at = begin + draw(st.integers(1, 900))
            words.append({"word": f" {word}", "start": begin / 1000, "end": at / 1000})
            if probabilities and draw(st.booleans()):
                words[-1]["probability"] = round(draw(st.floats(0, 1)), 6)
        at += draw(st.integers(1, 900))
        segment = {"start": start / 1000, "end": at / 1000, "text": " ".join(said), "id": draw(labels)}
        segment |= {"speaker": draw(speakers), "settings": draw(settings)}
        segments.append(segment | ({"words": words} if draw(st.booleans()) else {}))
    return read(json.dumps({"segments": segments}).encode())


def fields(transcript: Transcript, *names: str) -> list[tuple[object, ...]]:
    return [tuple(getattr(cue, name) for name in names) for cue in transcript.cues]


def again(transcript: Transcript, form: str) -> Transcript:
    """The transcript written and read again; a second round must change nothing at all."""
    written = write(transcript, form)
    first = read(written.encode(), name=transcript.source)
    check(first)
    assert first.format == form
    assert read(write(first, form).encode(), name=first.source) == first
    assert first.mendings == ()
    return first


LABELS = st.none() | texts(ANY.filter(lambda letter: letter not in "<>-"))
SPEAKERS = st.none() | texts(ANY)
EVERYTHING = ("text", "start_ms", "end_ms", "words", "label", "speaker", "settings")


@given(transcripts(labels=LABELS, speakers=SPEAKERS, settings=LABELS, probabilities=True))
def test_asr_json_carries_everything(transcript: Transcript) -> None:
    assert fields(again(transcript, "asr-json"), *EVERYTHING) == fields(transcript, *EVERYTHING)


@given(transcripts(labels=LABELS, speakers=SPEAKERS, settings=LABELS))
def test_webvtt_carries_everything_but_probabilities(transcript: Transcript) -> None:
    assert fields(again(transcript, "webvtt"), *EVERYTHING) == fields(transcript, *EVERYTHING)


NAMES = st.none() | st.text(string.ascii_letters, min_size=1, max_size=8)


@given(transcripts(speakers=SPEAKERS, labels=NAMES))
def test_ttml_carries_everything_but_settings_and_probabilities(transcript: Transcript) -> None:
    carried = ("text", "start_ms", "end_ms", "words", "speaker")
    read_again = again(transcript, "ttml")
    assert fields(read_again, *carried) == fields(transcript, *carried)
    # an XML name may stand once in a file
    labels = [cue.label for cue in transcript.cues]
    first = [label if label and label not in labels[:at] else None for at, label in enumerate(labels)]
    assert [cue.label for cue in read_again.cues] == first


UPPER = st.text(string.ascii_uppercase, min_size=2, max_size=8)


def one_voice_or_named(form: str, transcript: Transcript, named: Transcript) -> None:
    carried = ("text", "start_ms", "end_ms", "speaker")
    for given_ in (transcript, named):
        assert fields(again(given_, form), *carried) == fields(given_, *carried)


@given(transcripts(letters=PLAIN), transcripts(letters=PLAIN.filter(str.islower), speakers=UPPER))
def test_srt_carries_text_times_and_speakers_in_capitals(transcript: Transcript, named: Transcript) -> None:
    one_voice_or_named("srt", transcript, named)


@given(
    transcripts(letters=PLAIN, labels=st.integers(0, 999).map(str), settings=st.none() | st.just("X1:4 X2:5"))
)
def test_srt_carries_numbers_and_settings(transcript: Transcript) -> None:
    assert fields(again(transcript, "srt"), "label", "settings") == fields(transcript, "label", "settings")


@given(transcripts(letters=PLAIN), transcripts(letters=PLAIN.filter(str.islower), speakers=UPPER))
def test_plain_carries_text_times_and_speakers_in_capitals(transcript: Transcript, named: Transcript) -> None:
    one_voice_or_named("plain", transcript, named)


def said(cues: tuple[Cue, ...]) -> list[tuple[object, ...]]:
    return [(word.text, word.start_ms, word.end_ms, word.probability) for cue in cues for word in cue.words]


@given(transcripts(letters=ANY.filter(lambda letter: letter not in "<@;"), probabilities=True))
def test_ctm_carries_words_times_and_probabilities(transcript: Transcript) -> None:
    assert said(again(transcript, "ctm").cues) == said(transcript.cues)


@pytest.mark.parametrize("form", ["webvtt", "ttml", "asr-json", "srt", "plain"])
@settings(max_examples=30)
@given(transcript=transcripts(letters=PLAIN))
def test_every_format_carries_text_and_times(form: str, transcript: Transcript) -> None:
    carried = ("text", "start_ms", "end_ms")
    assert fields(again(transcript, form), *carried) == fields(transcript, *carried)

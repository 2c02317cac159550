"""Whatever the bytes, a sound transcript comes back or one ``TranscriptError``, and nothing else."""

from hypothesis import given, settings
from hypothesis import strategies as st
from soundness import check

from hikite.errors import TranscriptError
from hikite.transcripts import read, write

SEEDS = {
    "webvtt": (
        "WEBVTT\nLanguage: en\n\nSTYLE\na{}\n\nNOTE x\n\n"
        "one\n00:00:00.000 --> 00:00:02.000 align:left\n"
        "<v.a Ann &amp; Bo>he<00:00:00.500><c> goes</c>\n<ruby>内<rt>うち</rt></ruby></v> &lt;in\n\n"
        "00:02.000 --> 00:03.000\nagain\n"
    ),
    "srt": (
        "1\n00:00:00,000 --> 00:00:02,000 X1:4\n- ANNA: he <i>goes</i>\n- BO: {\\an8}in\n\n"
        "2\n-00:00:02,000 --> 00:00:01,000\n>> again &amp; again\n"
    ),
    "ttml": (
        '<?xml version="1.0" encoding="utf-8"?>\n<tt xmlns="http://www.w3.org/ns/ttml" xml:lang="en" '
        'xmlns:ttp="http://www.w3.org/ns/ttml#parameter" ttp:frameRate="25" ttp:tickRate="10">\n<head>'
        '<metadata><agent xml:id="a"><name>Ann</name></agent></metadata></head>'
        '<body timeContainer="seq">'
        '<div dur="9s">\n'
        '<p agent="a" begin="00:00:01:02" end="2.5s">he <span begin="5t" dur="1f">goes</span><br/>in</p>\n'
        "<p>again</p></div></body></tt>"
    ),
    "asr-json": (
        '{"language": "en", "segments": [\n{"id": 1, "start": 0.0, "end": 2, "text": " He goes", "words": ['
        '{"word": " He", "start": 0, "end": 0.5, "probability": 0.5}, {"word": " goes", "start": 1e0}]},\n'
        '{"start": "2", "text": "in", "speaker": "A"}]}'
    ),
    "ctm": (
        ";; c\nf 1 0.0 0.5 he 0.9\nf 1 * * <ALT_BEGIN>\nf 1 .5 0.5 goes NA\nf 1 * * <ALT_END>\nf 2 3. -1 in\n"
    ),
    "plain": "Hello\n[0:01] ANNA: he goes\nmore 2:10\n[1:00:02.5 --> 1:00:03] in\n\n0:05 x\n[0:00]\nback\n",
}
# Pieces that mean something to a reader, so that chance meets its branches.
FRAGMENTS = st.sampled_from(
    [
        *(
            "0",
            "9",
            "99",
            ":",
            ".",
            ",",
            "-",
            "-->",
            " --> ",
            "<",
            ">",
            "</",
            "<v A>",
            "<rt>",
            "&",
            ";",
            "&#0;",
        ),
        *(
            "&#xD800;",
            "{",
            "}",
            "[",
            "]",
            "(",
            ")",
            '"',
            "\\",
            "null",
            "NaN",
            "1e999",
            "true",
            '"word"',
            '"text"',
        ),
        *('"segments"', "WEBVTT", "NOTE", "STYLE", "00:00:01.000", "99999999:59:59,999", "-0:01", "[0:01]"),
        *(
            "<p>",
            "begin='",
            "<span begin='1s'>",
            "dur='-1s'",
            "<!DOCTYPE x>",
            "<![CDATA[",
            "ANNA: ",
            "- ",
            ">>",
        ),
        *("f 1 0 0 x", "<ALT>", "é", "内", "ﾊ", "А", "\U0001f93c", "\ufeff", "\x1f", "\x85", "\u2028", "\0"),
        *("\n", "\n\n", " ", "\t"),
    ]
)


def outcome(data: bytes) -> None:
    problem, transcript = "", None
    try:
        transcript = read(data, name="x")
    except TranscriptError as error:
        problem = str(error)
    if transcript is None:
        assert problem.startswith("x:")
        assert "\n" not in problem
        return
    check(transcript)
    for form in SEEDS:
        write(transcript, form).encode()


def test_the_seeds_are_read() -> None:
    for form, seed in SEEDS.items():
        assert read(seed.encode()).format == form


@settings(max_examples=300)
@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    outcome(data)


@settings(max_examples=300)
@given(st.lists(FRAGMENTS, max_size=40), st.sampled_from(["utf-8", "utf-16", "utf-16-le", "cp932", "cp1251"]))
def test_any_fragments(fragments: list[str], codec: str) -> None:
    outcome("".join(fragments).encode(codec, "replace"))


@settings(max_examples=600)
@given(
    st.sampled_from(sorted(SEEDS)),
    st.lists(st.tuples(st.integers(0, 500), st.integers(0, 12), st.lists(FRAGMENTS, max_size=3)), max_size=4),
)
def test_mutated_files(form: str, edits: list[tuple[int, int, list[str]]]) -> None:
    text = SEEDS[form]
    for at, cut, put in edits:
        at %= len(text) + 1
        text = text[:at] + "".join(put) + text[at + cut :]
    outcome(text.encode("utf-8", "replace"))


@settings(max_examples=300)
@given(st.sampled_from(sorted(SEEDS)), st.integers(0, 500), st.binary(max_size=6))
def test_mutated_bytes(form: str, at: int, put: bytes) -> None:
    data = SEEDS[form].encode()
    outcome(data[: at % len(data)] + put + data[at % len(data) + len(put) :])

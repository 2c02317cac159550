"""Speak labelled talk and write what a recogniser makes of it: ``respeak.py FOLDER OUT --voices rms,slt``.

Every ``<id>.clean.vtt`` of FOLDER is spoken line by line by voices of flite (a Debian package), one a
speaker, with the lexicon's Japanese and Russian names by their own sounds, and heard by a small neural
recogniser; OUT gets ``<id>.base.vtt`` with the times of the talk, and the truth beside it. What carries over
from one hearing to the next is worth fitting, one hearing's garbles are not.

Needs ``pip install moonshine-voice==0.0.69``: MIT, the last release that brings its English model along.
Number words heard as everyday ones ("to", "for") come oftener than larger recognisers write them.
"""

import argparse
import subprocess
import tempfile
import wave
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
from moonshine_voice import ModelArch, Transcriber, get_model_path
from numpy.typing import NDArray

from hikite.records import Cue, Transcript
from hikite.sounds.ears import letters
from hikite.terms import load_terms
from hikite.transcripts import read
from hikite.transcripts.stamps import clock

RATE = 16_000
# Lines are heard together as long as they follow upon each other and last no longer, in seconds.
TOGETHER_S, LONGEST_S, BETWEEN_S = 1.2, 8.0, 0.5
# The signs of a name's sounds as flite's phones, its vowels stressed but for the last.
PHONES = {
    "a": "aa", "A": "aa", "@": "ah", "o": "ow", "e": "eh", "i": "iy", "I": "ih", "O": "ao", "u": "uw",
    "U": "uh", "3": "er", "E": "eh", "Y": "ay", "W": "aw", "8": "oy", "S": "sh", "Z": "zh", "C": "ch",
    "J": "jh", "N": "ng", "h": "hh", "T": "th", "D": "dh",
}  # fmt: skip
VOWELS, GUESTS, SHORTEST = frozenset("aA@oeiIOuU3EYW8"), ("ja", "ru"), 4
Samples = NDArray[np.float32]


def phones(sounds: str) -> str:
    """A name's sounds as flite's phones."""
    found = []
    last = max((at for at, sound in enumerate(sounds) if sound in VOWELS), default=-1)
    for at, sound in enumerate(sounds):
        stress = "" if sound not in VOWELS else "0" if at == last else "1"
        found.append(PHONES.get(sound, sound) + stress)
    return " ".join(found)


def own_words() -> str:
    """Flite's list of the words that borrowed names are made of, each with its phones."""
    found = {}
    for name in load_terms().names:
        if name.language in GUESTS and name.script == "latin" and not name.weak:
            for word in name.form.replace("-", " ").split():
                if len(word) >= SHORTEST and word.isascii():
                    found.setdefault(word, phones(letters(name.language).read(word)))
    return "".join(f"{word} : {sounds}\n" for word, sounds in sorted(found.items()))


def spoken(text: str, voice: str, words: Path) -> Samples:
    """The text as one of flite's voices says it."""
    with tempfile.NamedTemporaryFile(suffix=".wav") as file:
        command = ["flite", "-voice", voice, "-add_lex", str(words), "-t", text, "-o", file.name]
        subprocess.run(command, check=True, capture_output=True)
        with wave.open(file.name) as sound:
            rate, raw = sound.getframerate(), sound.readframes(sound.getnframes())
    heard = np.frombuffer(raw, np.int16).astype(np.float32) / 32768
    at = np.arange(0, len(heard), rate / RATE)
    return np.interp(at, np.arange(len(heard)), heard).astype(np.float32)


def together(
    cues: Sequence[Cue], voices: dict[str | None, str], words: Path
) -> Iterator[list[tuple[Cue, Samples]]]:
    """The lines that are heard in one go, each with its sound."""
    chunk: list[tuple[Cue, Samples]] = []
    for cue in cues:
        sound = spoken(cue.text, voices[cue.speaker], words)
        lasts = sum(len(one) for _, one in chunk) + len(sound)
        apart = bool(chunk) and cue.start_ms - chunk[-1][0].end_ms > TOGETHER_S * 1000
        if chunk and (apart or lasts > LONGEST_S * RATE):
            yield chunk
            chunk = []
        chunk.append((cue, sound))
    if chunk:
        yield chunk


def captions(talk: Transcript, voices: Sequence[str], words: Path, recogniser: Transcriber) -> str:
    """What the recogniser hears of the whole talk, as WebVTT with the talk's own times."""
    speakers = sorted({cue.speaker for cue in talk.cues}, key=str)
    of = {speaker: voices[at % len(voices)] for at, speaker in enumerate(speakers)}
    said = ["WEBVTT", ""]
    for chunk in together(talk.cues, of, words):
        pause = np.zeros(int(BETWEEN_S * RATE), np.float32)
        heard, meant, at = [], [], 0.0
        for cue, sound in chunk:
            heard += [at, at + len(sound) / RATE]
            meant += [cue.start_ms, cue.end_ms]
            at = heard[-1] + BETWEEN_S
        sound = np.concatenate([part for _, one in chunk for part in (one, pause)])
        for line in recogniser.transcribe_without_streaming(sound.tolist(), RATE).lines:
            start, end = np.interp([line.start_time, line.start_time + line.duration], heard, meant)
            if line.text.strip():
                said += [
                    f"{clock(round(start))} --> {clock(round(max(end, start + 200)))}",
                    line.text.strip(),
                    "",
                ]
    return "\n".join(said)


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--voices", default="rms,slt")
    told = parser.parse_args()
    told.out.mkdir(parents=True, exist_ok=True)
    recogniser = Transcriber(str(get_model_path("tiny-en")), ModelArch.TINY)
    with tempfile.TemporaryDirectory() as folder:
        words = Path(folder) / "words.txt"
        words.write_text(own_words(), "utf-8")
        for file in sorted(told.folder.glob("*.clean.vtt")):
            name = file.name.removesuffix(".clean.vtt")
            text = captions(read(file), told.voices.split(","), words, recogniser)
            (told.out / f"{name}.base.vtt").write_text(text, "utf-8")
            gold = file.with_name(f"{name}.gold.json")
            if gold.exists():
                (told.out / gold.name).write_bytes(gold.read_bytes())
            print(name, flush=True)


if __name__ == "__main__":
    main()

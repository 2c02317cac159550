"""Invented commentary in any amount: every word, name and event in it is made up."""

import random
from pathlib import Path

FIRST = (
    "Ilmar",
    "Rafe",
    "Odrun",
    "Teshka",
    "Bram",
    "Yorro",
    "Nils",
    "Kavel",
    "Perin",
    "Ludo",
    "Sarn",
    "Mirek",
)
LAST = (
    "Destrow",
    "Pennaluk",
    "Vosk",
    "Ardane",
    "Kellim",
    "Tarrow",
    "Zubel",
    "Okrand",
    "Fenn",
    "Halvic",
    "Brisk",
)
NATIONS = ("Osterveil", "Tallow Isle", "Marrow", "Greywater", "Lindhal", "Sund")
EVENTS = ("Three Lighthouses Cup", "Cupboard Trophy", "Saltmarsh Open", "Harbour Belt")
THROWS = (
    "inner thigh",
    "hip throw",
    "o soto gari",
    "foot sweep",
    "double leg",
    "shoulder throw",
    "tomoe nage",
)
GRIPS = ("sleeve and lapel", "a belt grip", "an over the back grip", "a collar tie")
FILLER = (
    "and the crowd is up on its feet here",
    "they circle in the middle of the mat",
    "lots of movement but nothing comes of it yet",
    "you can see how tired they both are",
    "the referee has a look at the jackets",
)


def talk(rng: random.Random, red: str, blue: str, lines: int) -> list[str]:
    """The lines of one bout, in plain commentator's English."""
    said = ["and they start", f"{red} in red and {blue} in blue"]
    points = [0, 0]
    while len(said) < lines - 1:
        who, side = rng.choice(((red, 0), (blue, 1)))
        throw = rng.choice(THROWS)
        case = rng.random()
        if case < 0.25:
            said.append(f"{who} takes {rng.choice(GRIPS)}")
        elif case < 0.5:
            said.append(f"{who} tries the {throw} but nothing there")
        elif case < 0.65:
            points[side] += 2
            said.append(
                f"{who} throws with the {throw} on the side two points for {'red' if side == 0 else 'blue'}"
            )
            said.append(f"so it is {points[0]} {points[1]}")
        else:
            said.append(rng.choice(FILLER))
    return [*said, "that is the end of the bout"]


def stamp(ms: int) -> str:
    return f"{ms // 3_600_000:02d}:{ms // 60_000 % 60:02d}:{ms // 1000 % 60:02d}.{ms % 1000:03d}"


def captions(lines: list[str], step_ms: int = 4_000) -> str:
    cues = (
        f"{stamp(at * step_ms)} --> {stamp(at * step_ms + step_ms - 200)}\n{line}\n"
        for at, line in enumerate(lines)
    )
    return "WEBVTT\n\n" + "\n".join(cues)


def sheet(rng: random.Random, red: str, blue: str, number: int) -> str:
    day = f"20{rng.randrange(15, 27)}-{rng.randrange(1, 13):02d}-{rng.randrange(1, 29):02d}"
    nations = rng.sample(NATIONS, 2)
    sides = "".join(
        f'[[competitors]]\nside = "{side}"\nname = "{name}"\nnation = "{nation}"\n'
        for side, name, nation in zip(("red", "blue"), (red, blue), nations, strict=True)
    )
    title = f"{rng.choice(EVENTS)}: bout {number}"
    return f'title = "{title}"\ndate = "{day}"\nruleset = "sambo.sport.2020"\nduration_s = 300\n{sides}'


def misheard(line: str, share: float, rng: random.Random) -> str:
    """The line with that share of its words spelt as nobody spells them, each in a way of its own."""
    words = line.split(" ")
    return " ".join(
        word + "".join(rng.choices("abcdeiknorstu", k=4)) if word.isalpha() and rng.random() < share else word
        for word in words
    )


def write(
    folder: Path, count: int, *, seed: int = 1, lines: int = 40, first: int = 0, slips: float = 0.0
) -> tuple[Path, ...]:
    """So many recordings with their bout sheets, the same for the same seed and number.

    ``slips`` is the share of words that no recording before has held.
    """
    folder.mkdir(parents=True, exist_ok=True)
    files = []
    for number in range(first, first + count):
        rng = random.Random(f"{seed} {number}")
        red, blue = (f"{rng.choice(FIRST)} {last}" for last in rng.sample(LAST, 2))
        file = folder / f"bout-{number:05d}.vtt"
        said = talk(rng, red.split()[1], blue.split()[1], lines)
        file.write_text(captions([misheard(line, slips, rng) for line in said] if slips else said), "utf-8")
        file.with_name(file.name + ".sheet.toml").write_text(sheet(rng, red, blue, number), "utf-8")
        files.append(file)
    return tuple(files)

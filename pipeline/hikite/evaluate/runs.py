"""Running the path over labelled recordings and keeping what came of it."""

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Literal

from pydantic import BaseModel

from hikite.errors import GoldError
from hikite.evaluate.bouts import LedgerFigures, evaluate_ledger
from hikite.evaluate.calibrations import Guess
from hikite.evaluate.figures import ClaimFigures, Figure, add, compare, evaluate_claims
from hikite.evaluate.golds import Gold, read_gold
from hikite.evaluate.matches import Same, heard_mentions
from hikite.evaluate.namesakes import by_name
from hikite.evaluate.settlings import settled
from hikite.process import Lexicon, process
from hikite.records import Recording, Sheet, Transcript
from hikite.terms.speech import load_speech
from hikite.transcripts import read

Form = Literal["vtt", "json"]
Stage = Literal["mentions", "claims", "ledger"]
Way = Callable[[Transcript, Lexicon, Sheet | None], Recording]


class Evaluated(BaseModel, frozen=True):
    """One recording's figures; ``ledger`` is missing where the path ended before it."""

    id: str
    file: str
    claims: ClaimFigures
    ledger: LedgerFigures | None = None


class Run(BaseModel, frozen=True):
    """The figures of one evaluation over several recordings."""

    variant: str
    sheet: bool
    recordings: tuple[Evaluated, ...]

    @property
    def kinds(self) -> dict[str, Figure]:
        """Counts by kind, summed over the recordings."""
        names = self.recordings[0].claims.kinds if self.recordings else {}
        return {name: add([one.claims.kinds[name] for one in self.recordings]) for name in names}

    @property
    def headline(self) -> Figure:
        """Techniques and grips together."""
        return add([one.claims.headline for one in self.recordings])

    @property
    def guesses(self) -> tuple[Guess, ...]:
        """Every confidence with its outcome."""
        mentions = [guess for one in self.recordings for guess in one.claims.guesses]
        return (*mentions, *(guess for one in self.recordings if one.ledger for guess in one.ledger.guesses))

    @property
    def ledgers(self) -> tuple[LedgerFigures, ...]:
        """The ledgers' figures, a recording each."""
        return tuple(one.ledger for one in self.recordings if one.ledger is not None)


def find_golds(places: Sequence[Path]) -> Iterator[Path]:
    """Every gold file named or found in a named folder, by name; GoldError where a folder has none."""
    for place in places:
        found = sorted(place.glob("*.gold.json")) if place.is_dir() else [place]
        if not found:
            raise GoldError("no *.gold.json here", file=str(place))
        yield from found


def commentary_of(gold: Path, variant: str, form: Form = "vtt") -> Path | None:
    """The talk beside a gold file: ``<id>.<variant>.<form>``, else any other ``<id>.*`` (samples)."""
    stem = gold.name.removesuffix(".gold.json")
    named = gold.with_name(f"{stem}.{variant}.{form}")
    if named.exists():
        return named
    others = [
        path
        for path in sorted(gold.parent.glob(f"{stem}.*"))
        if path.suffix in (".vtt", ".srt", ".ttml", ".json", ".txt", ".ctm")
        and path != gold
        and not path.name.endswith(".sheet.toml")
        and path.name.removesuffix(path.suffix) == stem
    ]
    return others[0] if others else None


def evaluate(
    places: Sequence[Path],
    lexicon: Lexicon,
    *,
    variant: str = "clean",
    form: Form = "vtt",
    sheet: bool = True,
    stage: Stage = "ledger",
    way: Way = process,
) -> Run:
    """Every labelled recording that has the wanted variant, run the whole ``way`` and counted.

    ``sheet`` gives each recording what a bout sheet would tell; ``stage`` is the last one asked about.
    GoldError where a gold file is broken, or none has a recording of the variant beside it.
    """
    done = []
    for path in find_golds(places):
        gold = read_gold(path)
        talk = commentary_of(path, variant, form)
        if talk is not None:
            recording = way(read(talk), lexicon, _sheet(gold) if sheet else None)
            speech = load_speech(lexicon.language)
            asked = by_name(gold, recording.testimony.sheet, recording.talk.texts, speech)
            done.append(evaluate_one(recording, asked, lexicon.terms.same, stage))
    if not done:
        raise GoldError(f"no recording beside it, {variant} or of any name", file=str(places[0]))
    return Run(variant=variant, sheet=sheet, recordings=tuple(done))


def evaluate_one(recording: Recording, gold: Gold, same: Same, stage: Stage = "ledger") -> Evaluated:
    """One recording's record against its labels, up to a stage."""
    if stage == "mentions":
        claims = compare(heard_mentions(recording.mentions, recording.talk), gold, same)
    else:
        testimony = settled(recording) if stage == "ledger" else recording.testimony
        claims = evaluate_claims(testimony, recording.talk, gold, same)
    ledger = evaluate_ledger(recording.ledger, gold) if stage == "ledger" else None
    file = Path(recording.transcript.source).name
    return Evaluated(id=gold.id, file=file, claims=claims, ledger=ledger)


def _sheet(gold: Gold) -> Sheet:
    """What a sheet beside the recording would tell: of several bouts the rules, not who fights."""
    first = gold.sheets[0]
    return first if len(gold.sheets) == 1 else first.model_copy(update={"competitors": ()})

"""Fits the rates of ``noise.toml`` on labelled bouts and says what they are worth on bouts left out.

    python tests/ledger/fit_noise.py FOLDER            # cross-validated by author, nothing written
    python tests/ledger/fit_noise.py FOLDER --write    # fitted on all of them, noise.toml rewritten
    python tests/ledger/fit_noise.py FOLDER --temper   # only how sure finals and lines are told, rewritten

(with ``PYTHONPATH=pipeline`` where the package is not installed)

What is maximised is the mean log probability of the labelled final scores, of the lines of the score that are
right and of those that are not. One rate at a time is moved along a ladder of factors until none helps; the
exponents on the confidences come last. Every bout is heard with claims judged by weights fitted on the other
annotators' bouts.
"""

import re
import sys
from math import log
from pathlib import Path

from labelled import Labelled, judged_by_others, load_labelled

from hikite.ledger import keep, load_rulesets
from hikite.ledger.noise import Noise, Temper, load_noise

FILE = Path(__file__).parents[2] / "pipeline/hikite/ledger/noise.toml"
LADDER = (0.5, 2.0)
CAPS = {"leader_first": 0.9, "first_first": 0.6}
RULESETS = load_rulesets()
TEMPERS = ("sure_final", "lift_final", "sure_line")
RATES = tuple(name for name in Noise.model_fields if name not in TEMPERS)
LEAST = 0.01
STRAYING, LIFTING = 0.5, 8.0


def worth(bouts: list[Labelled], noise: Noise) -> float:
    """The mean over bouts of the log probabilities of what is labelled; higher is better."""
    total = 0.0
    for labelled in bouts:
        bout = keep(labelled.testimony, RULESETS, noise).bouts[0]
        final = bout.final_confidence if labelled.exact(bout) else (1 - bout.final_confidence) / 4
        total += 2 * log(max(final, LEAST))
        right, wrong, missed = labelled.lines(bout)
        total += sum(log(max(sure, LEAST)) for sure in right) + sum(
            log(max(1 - sure, LEAST)) for sure in wrong
        )
        total += missed * log(0.1)
    return total / len(bouts)


def fit(bouts: list[Labelled], noise: Noise, rounds: int = 2) -> Noise:
    """The rates that fit these bouts best, found by moving one at a time."""
    start, best = noise, worth(bouts, noise)
    for _ in range(rounds):
        before = best
        for name in RATES:
            for factor in LADDER:
                value = getattr(noise, name) * factor
                cap = CAPS.get(name, 3.0 if name in ("sharp", "link", "worth") else 0.6)
                tried = noise.model_copy(update={name: round(min(value, cap), 4)})
                if tried.leader_first + tried.first_first > 0.98:
                    continue
                found = worth(bouts, tried) - _moved(start, tried)
                if found > best + 1e-4:
                    best, noise = found, tried
        if best - before < 0.01:
            break
    return noise.model_copy(update=_tempers(bouts, noise))


Told = tuple[float, bool]
"""A confidence and whether it was right."""


def _tempers(bouts: list[Labelled], noise: Noise) -> dict[str, float]:
    """The exponents and lifts under which the confidences are most probable."""
    plain = noise.model_copy(update=dict(zip(TEMPERS, (*Temper(), 1.0), strict=True)))
    finals: list[Told] = []
    lines: list[Told] = []
    for labelled in bouts:
        bout = keep(labelled.testimony, RULESETS, plain).bouts[0]
        right, wrong, _ = labelled.lines(bout)
        finals.append((bout.final_confidence, labelled.exact(bout)))
        lines += [(sure, True) for sure in right] + [(sure, False) for sure in wrong]
    return dict(zip(TEMPERS, (*_temper(finals), _temper(lines, 0).exponent), strict=True))


def _temper(told: list[Told], lifts: int = 15) -> Temper:
    """The exponent and lift under which what was told is most probable; straying from none costs.

    A lift costs most: these bouts were read while phrases were added, others are read less well.
    """

    def surprise(temper: Temper) -> float:
        chances = ((temper(min(max(p, 0.002), 0.998)), right) for p, right in told)
        surprises = -sum(log(chance if right else 1 - chance) for chance, right in chances)
        return surprises + STRAYING * log(temper.exponent) ** 2 + LIFTING * temper.lift**2

    tried = (Temper(0.3 + 0.05 * n, 0.1 * m) for n in range(35) for m in range(-lifts, lifts + 1))
    best = min(tried, key=surprise)
    return Temper(round(best.exponent, 2), round(best.lift, 2))


def _moved(start: Noise, tried: Noise) -> float:
    """What straying from the counted rates costs; without it the fit learns these bouts by heart."""
    pairs = zip(start.model_dump().values(), tried.model_dump().values(), strict=True)
    return STRAYING * sum(log(new / old) ** 2 for old, new in pairs)


def report(name: str, bouts: list[Labelled], noise: Noise) -> None:
    """One line of figures."""
    kept = [(labelled, keep(labelled.testimony, RULESETS, noise).bouts[0]) for labelled in bouts]
    exact = sum(labelled.exact(bout) for labelled, bout in kept) / len(kept)
    counted = [labelled.lines(bout) for labelled, bout in kept]
    right, wrong = (sum(len(one[which]) for one in counted) for which in (0, 1))
    missed = sum(one[2] for one in counted)
    f1 = 2 * right / (2 * right + wrong + missed)
    print(f"{name}: exact final {exact:.3f}, lines F1 {f1:.3f}, objective {worth(bouts, noise):.3f}")


def main() -> None:
    """Cross-validate by author, and with ``--write`` fit on everything and rewrite the file."""
    folder = Path(sys.argv[1])
    bouts = load_labelled(folder, judges=judged_by_others(folder))
    start = load_noise()
    report("before, all", bouts, start)
    if "--temper" in sys.argv:
        _write(start.model_copy(update=_tempers(bouts, start)))
        return
    if "--write" not in sys.argv:
        for author in sorted({labelled.author for labelled in bouts}):
            rest = [labelled for labelled in bouts if labelled.author != author]
            left_out = [labelled for labelled in bouts if labelled.author == author]
            report(f"before, left out {author}", left_out, start)
            report(f"fitted without {author}, left out", left_out, fit(rest, start))
        return
    fitted = fit(bouts, start)
    report("fitted, all", bouts, fitted)
    _write(fitted)


def _write(noise: Noise) -> None:
    text = FILE.read_text("utf-8")
    for name, value in noise.model_dump().items():
        text = re.sub(rf"(?m)^{name} = -?[0-9.]+", f"{name} = {value:.4g}", text)
    FILE.write_text(text, "utf-8")


if __name__ == "__main__":
    main()

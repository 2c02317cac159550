"""A table of counts and rates that says what it rests on."""

from pydantic import BaseModel

from hikite.numbers.asking import Ask
from hikite.numbers.rates import Rate


class Line(BaseModel, frozen=True, extra="forbid"):
    """One line: ``labels`` under the table's ``names``, sums under ``counts``, shares under ``rates``.

    ``rests_on`` is how many entries (or bouts, or sides of bouts) it was counted from, whatever their weight.
    ``keys`` are the labels as ids, for programs.
    """

    keys: tuple[str, ...]
    labels: tuple[str, ...]
    rests_on: int
    counts: dict[str, float]
    rates: dict[str, Rate | None]


class Table(BaseModel, frozen=True, extra="forbid"):
    """What was asked, what was counted, and the lines.

    ``unit`` is what is counted; ``rests_on`` how many of them, from how many ``bouts`` and ``recordings``;
    ``left_out`` how many were not sure enough, ``placeless`` how many fit no line (nobody's, no grip
    named). ``overlapping`` says that one entry may stand in several lines, so that they do not add up.
    """

    ask: Ask
    unit: str
    names: tuple[str, ...]
    lines: tuple[Line, ...]
    rests_on: int
    left_out: int
    placeless: int
    bouts: int
    recordings: int
    overlapping: bool = False

    @property
    def basis(self) -> str:
        """In a sentence: which entries count and how much, and how many the table rests on."""
        ask = self.ask
        how = (
            "each weighted by its confidence" if ask.weighted
            else f"only what is at least {ask.sure * 100:.10g} % sure, each as one" if ask.sure
            else "all of them, however unsure, each as one"
        )  # fmt: skip
        if ask.weighted and ask.sure:
            how += f", only what is at least {ask.sure * 100:.10g} % sure"
        parts = [f"{self.left_out:,} left out as less sure"] if self.left_out else []
        parts += [f"{self.placeless:,} in no line"] if self.placeless else []
        parts += ["one may stand in several lines"] if self.overlapping else []
        where = f"{self.rests_on:,} {self.unit}"
        where += "" if self.unit == "bouts" else f" of {self.bouts:,} bouts"
        where += f" in {self.recordings:,} recordings"
        return "; ".join([f"{where}: {how}", *parts])

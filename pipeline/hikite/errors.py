"""The errors a user meets: one clear message, with file and line where there is one."""


class HikiteError(Exception):
    """Any refusal of input; ``str()`` is the whole message, ready to print."""

    def __init__(self, problem: str, *, file: str | None = None, line: int | None = None) -> None:
        self.problem, self.file, self.line = problem, file, line
        place = "" if file is None else file if line is None else f"{file}:{line}"
        super().__init__(f"{place}: {problem}" if place else problem)


class TranscriptError(HikiteError):
    """A commentary file that cannot be read as timed text."""


class LexiconError(HikiteError):
    """A lexicon or rule-set file that breaks its own rules."""


class SheetError(HikiteError):
    """A bout-sheet file that cannot be read."""


class GoldError(HikiteError):
    """A gold file that cannot be read."""

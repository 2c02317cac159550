"""One recording through the stages, as far as it must go again, to rows."""

import traceback
from functools import lru_cache
from pathlib import Path
from typing import Literal, NamedTuple

from hikite.archive.derivations.recordings import derived_of
from hikite.archive.derivations.rows import Derived
from hikite.archive.kept import Refusal
from hikite.archive.parts import Parts, unpack, unpack_transcript
from hikite.errors import HikiteError, LexiconError
from hikite.ledger import keep
from hikite.process import Lexicon, load_lexicon, process
from hikite.records import Recording, Sheet
from hikite.sheets import read_sheet
from hikite.transcripts import read

From = Literal["file", "transcript", "testimony"]


class Task(NamedTuple):
    """What to derive, and from where on: the file, or what the archive holds of an earlier stage.

    ``parts`` and ``told`` (the bout sheet, JSON) are needed unless the file is read. ``aliases`` are files of
    corrected names.
    """

    path: str
    sheet: str | None = None
    since: From = "file"
    parts: Parts | None = None
    told: str = ""
    lexicon: str = ""
    aliases: tuple[Path, ...] = ()


def derive(task: Task) -> Derived | Refusal:
    """The rows of a recording, or why there are none; a broken lexicon is raised, nothing else."""
    try:
        lexicon = loaded(task.aliases)
        told = _told(task)
        return derived_of(_recording(task, told, lexicon), told, task.path, lexicon)
    except LexiconError:
        raise
    except HikiteError as error:
        return Refusal(path=task.path, reason=str(error))
    except RecursionError:
        return Refusal(path=task.path, reason="nested too deeply to be read")
    except Exception as error:
        last = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{Path(last.filename).name}:{last.lineno}"
        fault = f"a fault of hikite, please report it: {type(error).__name__}: {error} ({where})"
        return Refusal(path=task.path, reason=fault)


@lru_cache(maxsize=2)
def loaded(aliases: tuple[Path, ...] = ()) -> Lexicon:
    """The lexicon, once a process: a process forked from one that has it has it too."""
    return load_lexicon(aliases=aliases)


def _told(task: Task) -> Sheet:
    if task.since != "file":
        return Sheet.model_validate_json(task.told)
    return read_sheet(Path(task.sheet)) if task.sheet else Sheet()


def _recording(task: Task, told: Sheet, lexicon: Lexicon) -> Recording:
    if task.since == "file":
        return process(read(Path(task.path)), lexicon, told)
    if task.parts is None:
        raise ValueError("nothing was handed over to go on from")
    if task.since == "transcript":
        return process(unpack_transcript(task.parts), lexicon, told)
    before = unpack(task.parts, task.lexicon)
    return before.model_copy(update={"ledger": keep(before.testimony, lexicon.rulesets)})

"""``python -m hikite.evaluate FOLDER``: the figures of labelled recordings."""

import argparse
import sys
from pathlib import Path

from hikite.errors import HikiteError
from hikite.evaluate.reports import report
from hikite.evaluate.runs import Run, evaluate
from hikite.process import load_lexicon


def main(words: list[str]) -> int:
    """Print the report; 0, or 2 where nothing could be read."""
    parser = argparse.ArgumentParser(prog="hikite.evaluate", description=__doc__)
    parser.add_argument("places", nargs="+", type=Path, help="folders or gold files")
    parser.add_argument("--variant", default="clean", help="clean, base, tiny")
    parser.add_argument("--form", default="vtt", choices=("vtt", "json"))
    parser.add_argument("--no-sheet", action="store_true", help="from the talk alone")
    parser.add_argument("--last", default="ledger", choices=("mentions", "claims", "ledger"))
    parser.add_argument("--save", type=Path, help="keep this run's figures")
    parser.add_argument("--against", type=Path, help="show gains and losses against a kept run")
    parser.add_argument("--errors", action="store_true", help="list every error with its line")
    told = parser.parse_args(words)
    try:
        run = evaluate(
            told.places,
            load_lexicon(),
            variant=told.variant,
            form=told.form,
            sheet=not told.no_sheet,
            stage=told.last,
        )
        against = Run.model_validate_json(told.against.read_text("utf-8")) if told.against else None
    except HikiteError as error:
        print(error, file=sys.stderr)
        return 2
    if told.save:
        told.save.write_text(run.model_dump_json(), "utf-8")
    print(report(run, against, told.errors))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

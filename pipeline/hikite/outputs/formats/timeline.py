"""How the score went, as a picture (W3C SVG 2)."""

from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.plots import score_timelines
from hikite.process import Lexicon
from hikite.records import Recording


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    return score_timelines(record.bouts)


FORMAT = Format("timeline", ".timeline.svg", "how the score went, as an SVG picture", False, _body)

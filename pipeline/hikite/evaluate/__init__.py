"""Records against labelled recordings: figures, calibration, gains and losses."""

from hikite.evaluate.figures import evaluate_claims
from hikite.evaluate.reports import report
from hikite.evaluate.runs import evaluate

__all__ = ["evaluate", "evaluate_claims", "report"]

"""The ledger: what the rules allow to have happened, given all that was said."""

from hikite.ledger.keeping import Weighed, keep, rules_of
from hikite.ledger.mirrors import righted
from hikite.ledger.retellings import UNNAMED_HOLDS
from hikite.ledger.rulesets import Rulesets, load_rulesets

__all__ = ["UNNAMED_HOLDS", "Rulesets", "Weighed", "keep", "load_rulesets", "righted", "rules_of"]

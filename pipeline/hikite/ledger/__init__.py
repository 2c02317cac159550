"""The ledger: what the rules allow to have happened, given all that was said."""

from hikite.ledger.rulesets import Rulesets, load_rulesets

__all__ = ["Rulesets", "load_rulesets"]

"""What is told one after another of one person, whoever that is: "he has two cards, he's a throw down"."""

import numpy as np

from hikite.ledger.deeds import Pair
from hikite.ledger.grids import Floats
from hikite.records import Claim
from hikite.records.marks import SAME_ONE


class Whose:
    """The last thing said of somebody: P(words | each state), for each side that it may have been said of."""

    def __init__(self) -> None:
        self._whole: Floats | None = None
        self._of: tuple[Floats, Floats] | None = None

    def told(self, claim: Claim, led: Pair, one: Floats, two: Floats) -> Floats:
        """P(words | state) given what was said before, the words being ``one`` if said of the first side and
        ``two`` of the second; who is meant goes by ``led`` and by what was said of the same person before."""
        if self._of is not None and self._whole is not None and SAME_ONE in claim.attributes:
            one, two, before = one * self._of[0], two * self._of[1], self._whole
        else:
            before = np.ones_like(one)
        self._of, self._whole = (one, two), led[0] * one + led[1] * two
        return self._whole / before

"""What was read before changes nothing: of names that sound alike the lexicon's order alone decides."""

import numpy as np

from hikite.mentions import Matcher
from hikite.mentions.hearing import Sounded


# Words are numbered as they are met and windows come in the order of those numbers, so any order may be.
def test_of_one_concept_the_name_best_attested_leads(matcher: Matcher) -> None:
    concepts = [
        {matcher.spoken[number].concept for number in numbers} for numbers in matcher.heard.names[:400]
    ]
    pairs = [(one, two) for two in range(400) for one in range(two) if concepts[one] == concepts[two]]
    assert pairs
    window, distance = np.zeros(2, np.int64), np.full(2, 0.1, np.float32)
    for one, two in pairs[:50]:
        for entries in ([one, two], [two, one]):
            found = matcher._gatherer._by_concept(Sounded(window, window + 1, np.array(entries), distance))
            assert one in found[3].tolist()
            assert two not in found[3].tolist()

"""How far two people agree beyond chance."""

from collections import Counter
from collections.abc import Sequence


def kappa(pairs: Sequence[tuple[str, str]]) -> float | None:
    """Cohen's kappa of two people's judgements on the same things; None without any, or where both only
    ever say the same one thing, so that chance alone would agree.

    Source: J. Cohen, A coefficient of agreement for nominal scales, Educational and Psychological
    Measurement 20 (1960).
    """
    if not pairs:
        return None
    seen = sum(one == two for one, two in pairs) / len(pairs)
    first, second = Counter(one for one, _ in pairs), Counter(two for _, two in pairs)
    chance = sum(count * second[name] for name, count in first.items()) / len(pairs) ** 2
    return None if chance == 1 else (seen - chance) / (1 - chance)

"""Names and titles as a search compares them."""

import unicodedata


def folded(text: str | None) -> str:
    """Case folded, accents dropped, what is no letter or digit a space: ``Orsolić-Dahl`` is two words."""
    if not text:
        return ""
    plain = (c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return " ".join("".join(c if c.isalnum() else " " for c in plain).split())

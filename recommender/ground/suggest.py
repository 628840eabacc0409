"""Did you mean: the nearest known word to a misspelt one."""

from collections.abc import Iterable
from difflib import get_close_matches

MOST_LISTED = 12


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word closest to `word`, or None when nothing comes close."""
    by_folded = {each.casefold().replace("-", "_"): each for each in sorted(known)}
    found = get_close_matches(word.casefold().replace("-", "_"), by_folded, n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return advice for an unknown word: the nearest known one, else the list of what is known."""
    listed = sorted(known)
    close = nearest(word, listed)
    if close is not None:
        return f"Did you mean `{close}`?"
    if len(listed) > MOST_LISTED:
        return f"Known are {len(listed)} words, among them: {', '.join(listed[:MOST_LISTED])}."
    return f"Known here: {', '.join(listed)}."

"""Did you mean: the nearest known word to a misspelt one."""

from collections.abc import Iterable
from difflib import get_close_matches

MOST_LISTED = 12
SHORTEST_PART = 3
MOST_COMPARED = 1_000
LONGEST_WORD = 100


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word closest to `word`, or None when nothing comes close or there is too much to compare."""
    known = tuple(known)
    if len(known) > MOST_COMPARED or len(word) > LONGEST_WORD:
        return None
    by_folded = {each.casefold().replace("-", "_"): each for each in sorted(known)}
    found = get_close_matches(word.casefold().replace("-", "_"), by_folded, n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str], all_of_them: str | None = None) -> str:
    """Return advice for an unknown word: the nearest known one, else those it is a part of, else what is known.

    `all_of_them` is the sentence that stands instead of a list too long to print.
    """
    listed = sorted(known)
    close = nearest(word, listed)
    if close is not None:
        return f"Did you mean `{close}`?"
    holding = [each for each in listed if len(word) >= SHORTEST_PART and word.casefold() in each.casefold()]
    if len(listed) > MOST_LISTED and 0 < len(holding) <= MOST_LISTED:
        return f"Known with `{word}` in them: {', '.join(holding)}."
    if len(listed) > MOST_LISTED and all_of_them is not None:
        return all_of_them
    if len(listed) > MOST_LISTED:
        return f"Known are {len(listed)} words, among them: {', '.join(listed[:MOST_LISTED])}."
    return f"Known here: {', '.join(listed)}."

"""The stop-riding notice, also for a case file that cannot be used otherwise."""

from collections.abc import Iterable

from recommender.account.lines import BLANK, WIDTH, Line, wrapped
from recommender.ground.suggest import nearest

STOPPING_SIGNS = ("crack", "delamination", "loose_fibres", "disbond_line", "insert_moved")
FALLBACK = (
    "Do not ride this frame until it has been inspected by a specialist. "
    "This notice goes to the owner with date, place and reason, and is acknowledged."
)


def stopping(signs: Iterable[str]) -> tuple[str, ...]:
    """Return those of the signs, as written, that stop the work; misspelt ones count as what they come closest to."""
    return tuple(sign for sign in signs if _stops(sign))


def _stops(sign: str) -> bool:
    spelt = "_".join(sign.casefold().replace("-", " ").split())
    return nearest(spelt, STOPPING_SIGNS) is not None or any(each in spelt for each in STOPPING_SIGNS)


def notice(text: str, about: str = "", because: str = "") -> list[Line]:
    """Return the notice so that nobody reads past it: between two rules, with the frame it is about and the reason."""
    rule = Line("=" * WIDTH, "notice")
    head = f"STOP RIDING: {about}" if about else "STOP RIDING"
    why = wrapped(f"Reason: {because}", weight="notice") if because else []
    return [rule, *wrapped(head, weight="notice"), *wrapped(text, weight="notice"), *why, rule, BLANK]


def notice_for_signs(signs: Iterable[str], about: str, text: str = FALLBACK) -> list[Line]:
    """Return the notice for a flawed case that names stopping signs; nothing when it names none."""
    found = stopping(signs)
    if not found:
        return []
    listed = ", ".join(sign.replace("_", " ") for sign in found)
    return notice(text, about, f"noted in this file: {listed}. Nothing else in it was judged.")

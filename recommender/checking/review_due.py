"""A house change whose review is overdue.

Avoid: a change with `review_by` in the past
Prefer: look at it again, then sign it anew with `dated` and `review_by`, or take it out.
Why: a change made for one reason outlives it. A change that could make a decision milder is void after its review
day; a stricter one stays in force and is named here. Judged on the day given with `--on`.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.rulebook.book import HouseChange

ID, LEVEL, NEEDS_WHOLE = "review-due", "error", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every change that is void on the day asked about, a warning for one still in force."""
    for change in looked.book.house_void:
        message = f"this change of {change.id} could make a decision milder and is void since {change.review_by}"
        yield _flaw(looked, change, message, "error")
    for change in looked.book.house_changes:
        if looked.on is not None and looked.on > change.review_by:
            message = f"the review of this change of {change.id} was due on {change.review_by}; it is still in force"
            yield _flaw(looked, change, message, "warning")


def _flaw(looked: Looked, change: HouseChange, message: str, level: str) -> Flaw:
    advice = "Look at it again and sign it anew, or take it out."
    return looked.flaw(ID, looked.review_of(change.place), message, advice, level)  # type: ignore[arg-type]

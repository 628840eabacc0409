"""The page of every check: what to avoid, what to prefer, and why."""

from recommender.checking import house_pages, load_pages
from recommender.checking.registry import CHECKS
from recommender.ground.flaw import Level

OF_CHECKS = {check.id: check.page for check in CHECKS}
ALL = {**load_pages.PAGES, **house_pages.PAGES, **OF_CHECKS}
LEVELS: dict[str, Level] = {check.id: check.level for check in CHECKS}


def page_of(check: str) -> str | None:
    """Return the page of a check, with or without its family in front; None when there is no such check."""
    page = ALL.get(check) or ALL.get(f"rules.{check}")
    return page or house_pages.FAMILIES.get(check.partition(".")[0])


def check_ids() -> tuple[str, ...]:
    """Return the id of every check that has a page of its own, sorted."""
    return tuple(sorted(ALL))

"""What pages of shipped cases are made from, and the pages themselves, made once."""

from collections.abc import Callable
from functools import cache

import pytest

from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.bench.load import LoadedCase
from recommender.deciding.answer import Advice
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook


@pytest.fixture(scope="session")
def matter(
    shipped: Callable[[str], LoadedCase], advised: Callable[[str], Advice], book: Rulebook
) -> Callable[[str], Matter]:
    """Return a function from a case such as `refuse/kiln-2014` to what its page is made from."""

    @cache
    def made(name: str) -> Matter:
        return Matter(advised(name), shipped(name), book, (shipped_cases() / name).parent)

    return made


@pytest.fixture(scope="session")
def paged(matter: Callable[[str], Matter]) -> Callable[[str], str]:
    """Return a function from a case to its page."""

    @cache
    def made(name: str) -> str:
        return page(matter(name))

    return made

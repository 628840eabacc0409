"""Which words a fact may take, and which word lists stand behind it."""

from collections.abc import Mapping

from recommender.facts.fact import Fact
from recommender.rulebook.book import Rulebook
from recommender.rulebook.gather import Gathered

# These facts take the ids of a section of the book instead of words of their own.
FROM_SECTION = {"frame.standard": "standards", "fit.class": "fit_classes", "compound.class": "compounds"}
DAMAGE_LISTS = ("signs", "places", "looks")


def words_of(fact: Fact, gathered: Gathered | Rulebook) -> tuple[str, ...]:
    """Return the words a fact may take."""
    section = FROM_SECTION.get(fact.id)
    return tuple(getattr(gathered, section)) if section else fact.words


def lists_behind(fact: str, words: Mapping[str, Mapping[str, str]]) -> dict[str, list[str]]:
    """Return the word lists a fact rests on: what may be seen, where, and how it was looked for."""
    if not fact.startswith("damage."):
        return {}
    return {name: sorted(words.get(name, {})) for name in DAMAGE_LISTS}

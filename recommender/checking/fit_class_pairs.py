"""A pair of part and bore that two fit classes claim, or none.

Avoid: two fit classes that both list `cup`, `polymer` and `carbon`
Prefer: each pair of part kind, part material and bore material in exactly one fit class.
Why: the interference window is looked up by that pair. Two windows for one pair would let the order of files decide;
a part of the book without a window could never be judged.
"""

from collections.abc import Iterator
from itertools import product

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.rulebook.book import FitClass, Rulebook

ID, LEVEL, NEEDS_WHOLE = "fit-class-pairs", "error", True


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every pair claimed twice, and a warning for every part no bore material suits."""
    places = {each.id: looked.place_of("fit_classes", each.id) for each in looked.book.fit_classes.values()}
    claimed: dict[tuple[str, str, str], FitClass] = {}
    for fit_class in looked.book.fit_classes.values():
        for pair in product(fit_class.part_kinds, fit_class.part_materials, fit_class.bore_materials):
            first = claimed.setdefault(pair, fit_class)
            if first is not fit_class:
                message = f"{', '.join(pair)} belongs to {first.id} and to {fit_class.id}"
                yield looked.flaw(ID, places[fit_class.id], message, f"Take it out here or at {places[first.id]}.")
    for part in _without_class(looked.book, {pair[:2] for pair in claimed}):
        message = f"no fit class takes {part}, so it could never be judged"
        yield looked.flaw(ID, looked.place_of("parts", part), message, "Add its kind and material to a fit class.")


def _without_class(book: Rulebook, known: set[tuple[str, str]]) -> Iterator[str]:
    return (part.id for part in book.parts.values() if (part.kind, part.material) not in known)

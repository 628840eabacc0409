"""Which class of retaining compound fills the gap of a part, and what it needs to cure there."""

import numpy as np

from recommender.deriving.candidate import lands_of
from recommender.deriving.collector import Collector
from recommender.deriving.derived import Compounded
from recommender.deriving.pressed import Pressed
from recommender.mechanics.bond import GapClass, fills
from recommender.mechanics.compound import Gap, gap_over_form
from recommender.rulebook.book import Compound, Rulebook

FACTS = ("compound.class", "compound.fills")


def compound_facts(pressed: Pressed, coating: str, made: Collector) -> Compounded | None:
    """Derive the class of compound for the gap round a part of known diameter, and whether it fills it all round.

    Returns what to print of it; None where the book has no class. `coating` is that of the bore.
    """
    candidate, book, by = pressed.candidate, pressed.book, pressed.by
    od, form = lands_of(candidate)[0]
    gap = gap_over_form(od, form.mean, form.inscribed, form.widest)
    narrow, wide = (by.once(np.asarray(each)) for each in (gap.narrowest, gap.widest))
    chosen = _class_for(wide.high, book)
    inputs = ("part.od", "bore.inscribed_diameter", "bore.widest_diameter")
    if chosen is None:
        for fact in FACTS:
            made.unknown(fact, "the rule book has no class of compound", *inputs)
        return None
    share = float(np.sum(by.weights[fills(Gap(*(np.asarray(each) for each in gap)), GapClass(*chosen.gap))]))
    made.word("compound.class", chosen.id, *inputs)
    made.word("compound.fills", by.told(share), "compound.class", *inputs, why="gap and class lie too close to tell")
    on = [each for each in (candidate.bore_material or "carbon", coating) if each in chosen.with_activator]
    here = (round(narrow.low, 4), round(wide.high, 4))
    return Compounded(chosen.id, chosen.title, chosen.gap, here, tuple(on), chosen.cure)


def _class_for(widest: float, book: Rulebook) -> Compound | None:
    """Return the class for the narrowest gaps that still bridges the widest place, else the one that bridges most."""
    classes = sorted(book.compounds.values(), key=lambda each: each.gap[1])
    return next((each for each in classes if each.gap[1] >= widest), classes[-1] if classes else None)

"""Facts that no rule asks.

Nothing has to be done: facts may be printed without deciding anything. The note lists them for whoever looks for a
fact to write a rule about; `rules show FACT` tells what each of them means.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.facts.catalogue import CATALOGUE
from recommender.ground.flaw import Flaw
from recommender.ground.place import whole_file

ID, LEVEL, NEEDS_WHOLE = "unasked-fact", "note", True


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield one note that lists every fact no rule asks, those about conformity left out."""
    asked = {name for rule in looked.book.rules for name in rule.facts}
    asked |= {name for grid in looked.book.grids.values() for name in grid.inputs}
    left = sorted(each.id for each in CATALOGUE.values() if each.id not in asked and not each.conformity)
    if left:
        folder = whole_file(next(iter(looked.documents)).partition("/")[0])
        message = f"no rule asks {len(left)} of the facts: {', '.join(left)}"
        yield Flaw(f"rules.{ID}", folder, message, "Nothing has to be done.", "note")

"""The rule book in force on the day a frame was received, loaded anew only when that day asks for it."""

import hashlib
import json
from collections import OrderedDict
from datetime import date
from pathlib import Path

from recommender import ENGINE
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

MOST_KEPT = 32


class DatedBooks:
    """The shipped rules with a house folder; without one, every day has the same book."""

    def __init__(self, house: Path | None, rules: Path | None = None) -> None:
        """Load the book once without a date; raises Flawed when it cannot be used."""
        self.undated = load(house, rules)
        self.house, self.rules = house, rules
        self._dated: OrderedDict[date, Rulebook] = OrderedDict()

    def on(self, received: date) -> Rulebook:
        """Return the book in force on a day; raises Flawed when an act of the house was not valid then."""
        if self.house is None:
            return self.undated
        if received not in self._dated:
            self._dated[received] = load(self.house, self.rules, received)
        self._dated.move_to_end(received)
        if len(self._dated) > MOST_KEPT:
            self._dated.popitem(last=False)
        return self._dated[received]

    @property
    def stamp(self) -> str:
        """Return a short hash of engine, rules and house acts: two runs with the same one judge alike."""
        acts = [(each.id, str(each.dated), str(each.review_by)) for each in self.undated.house_changes]
        text = json.dumps([ENGINE, self.undated.fingerprint, sorted(acts)])
        return hashlib.sha256(text.encode("ascii")).hexdigest()[:12]

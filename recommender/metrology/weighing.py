"""How the draws of a bore count, and what they come to."""

from recommender.metrology.normal import Array
from recommender.metrology.summary import SHOWN, Summary, all_alike, summarise


class Weighing:
    """The weights of draws; they sum to 1 and count as much as `effective` equal ones.

    Limits and sizes are asked for again and again: what was summed up once is kept.
    """

    def __init__(self, weights: Array, effective: float, confidence: float = SHOWN) -> None:
        """Take the weights, the count of equal ones they are worth, and the confidence that decides."""
        self.weights, self.effective, self.confidence = weights, effective, confidence
        self._weights = None if all_alike(weights) else weights
        self._kept: dict[int, tuple[Array, Summary]] = {}

    def summary(self, values: Array) -> Summary:
        """Return median, 95 % interval and sampling error of draws, which must not be changed afterwards."""
        if id(values) not in self._kept:
            self._kept[id(values)] = (values, self.once(values))
        return self._kept[id(values)][1]

    def once(self, values: Array) -> Summary:
        """Return the same of draws nobody will ask for again."""
        return summarise(values, self._weights, self.effective, self.confidence)

    def told(self, share: float) -> bool | None:
        """Return whether what holds on a share of all weight holds; None where the confidence does not tell."""
        sure = (1 + self.confidence) / 2
        return True if share > sure else (False if share < 1 - sure else None)

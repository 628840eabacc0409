"""What is known after one or more candidate readings: the same whatever they show, but for where the middle moves."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from recommender.asking.candidates import Candidate
from recommender.asking.fields import MOVED_BY, Field
from recommender.asking.joint import Joint
from recommender.asking.scores import Array, even_shares, fixed_scores
from recommender.metrology.rows import TAPER


class Outcome(NamedTuple):
    """One way candidate readings may turn out: their corrected values (mm) and the mean of the unknowns after them."""

    values: tuple[float, ...]
    mean: Array


class Outlook(NamedTuple):
    """Candidate readings in their order, what is known before each, and after all."""

    readings: tuple[Candidate, ...]
    stages: tuple[Joint, ...]

    @property
    def after(self) -> Joint:
        """Return what is known once all are read, the mean as it stands now."""
        return self.stages[-1]

    def longer(self, candidate: Candidate) -> "Outlook":
        """Return the outlook with one more reading."""
        known = self.after._replace(covariance=self.after.after(candidate.reading))
        return Outlook((*self.readings, candidate), (*self.stages, known))

    def outcomes(self, count: int) -> Iterator[Outcome]:
        """Yield equally likely ways the readings may turn out."""
        for scores in _scores(count, len(self.readings)):
            mean, values = self.stages[0].mean, []
            for known, candidate, score in zip(self.stages, self.readings, scores, strict=False):
                middle, u = known._replace(mean=mean).predicted(candidate.reading)
                values.append(middle + u * float(score))
                mean = mean + known.gain(candidate.reading) * (u * float(score))
            yield Outcome(tuple(values), mean)


def outlook(now: Joint) -> Outlook:
    """Return the outlook before any further reading."""
    return Outlook((), (now,))


def doubt_left(field: Field, before: Joint, after: Joint) -> float:
    """Return the share of standard deviation left in what moves a size or form."""
    places = list(MOVED_BY[field])
    scale = np.array([before.seat_depth / 2 if place == TAPER else 1.0 for place in places])
    first, then = (np.diag(each.covariance)[places] * scale**2 for each in (before, after))
    return float(np.sqrt(then.sum() / first.sum()))


def best(field: Field, so_far: Outlook, possible: Sequence[Candidate], count: int) -> list[Outlook]:
    """Return the outlooks with one more reading that leave the least doubt in a size or form, at most `count`."""
    def rank(each: Outlook) -> tuple[object, ...]:
        last = each.readings[-1]
        left = round(doubt_left(field, so_far.stages[0], each.after), 6)
        return left, last.reading.instrument, last.depth, last.turn

    return sorted((so_far.longer(each) for each in possible), key=rank)[:count]


def _scores(count: int, dimensions: int) -> Array:
    return even_shares(count)[:, None] if dimensions == 1 else fixed_scores(count, dimensions)

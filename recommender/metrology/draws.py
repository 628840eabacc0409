"""Draws of a bore: what its size and form may be, given readings, spans and gauges."""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from recommender.metrology.axis import Axis
from recommender.metrology.full_turns import apart, explained, full_turns, largest_swing, taken_alone
from recommender.metrology.gauges import likelihood, stopped
from recommender.metrology.inscribed import lean, losses
from recommender.metrology.model import Posterior
from recommender.metrology.normal import Array, bell, normal_cdfs
from recommender.metrology.orientation import along_lobes, reoriented
from recommender.metrology.rows import BOW, FIVE_LOBES, PLACES, SIZE, TAPER, THREE_LOBES, TWO_LOBES, UNKNOWNS
from recommender.metrology.scan import form_of
from recommender.metrology.sheet import Sees, Sheet, Span, spans
from recommender.metrology.summary import SHOWN
from recommender.metrology.weighing import Weighing

MISTAKEN = 1e-3
NOISE, PLACE = UNKNOWNS + 1, UNKNOWNS + 2


@dataclass(frozen=True)
class Draws:
    """Weighted draws of one bore, arrays of shape (count,) in mm.

    `mean`, `mouth`, `bottom`: mean diameter over the seat, at the face, at the inner end. `taper`: mouth minus bottom.
    `ovality`: largest minus smallest two-point diameter. `lobing`: the same of three-point readings. `inscribed`,
    `widest`: the largest cylinder inside and the smallest around the seat. `loss`: mean minus inscribed diameter of a
    section. `weights` sum to 1; `reading_weights` leave the gauges out. `depth`: length of the seat in mm.
    `confidence`: that with which a bar has to be seen to be kept. `local`: by how much more the depth that swings most
    does so than the lobes all along, as two-point diameter.
    """

    axis: Axis
    mean: Array
    mouth: Array
    bottom: Array
    taper: Array
    ovality: Array
    lobing: Array
    loss: Array
    inscribed: Array
    widest: Array
    weights: Array
    reading_weights: Array
    effective_count: float
    confidence: float = SHOWN
    local: Array | float = 0.0

    @cached_property
    def by(self) -> Weighing:
        """Return how these draws count, gauges included."""
        return Weighing(self.weights, self.effective_count, self.confidence)

    @property
    def depth(self) -> float:
        """Return the length of the seat in mm."""
        return self.axis.depth

    @property
    def largest_local(self) -> Array:
        """Return the largest two-point diameter over the seat, what a two-point gauge reads at most."""
        return self.axis.widest() + self.ovality / 2

    @property
    def smallest_local(self) -> Array:
        """Return the smallest two-point diameter over the seat; form of one depth alone reaches inwards."""
        return self.axis.narrowest(self.axis.depth) - (self.ovality + self.local) / 2

    def at(self, depth: float) -> Array:
        """Return the mean diameter of the section at a depth in mm."""
        return self.axis.at(depth)


def draw(found: Posterior, sheet: Sheet, scores: Array, mistaken: float = MISTAKEN) -> Draws:
    """Return draws of a bore; `scores` are standard normal, shape (count, 10 or more).

    `mistaken` is the chance that a gauge result or span is not what it seems (burr, tilt, dirt): a result that cannot
    be true beside the readings then leaves them as they are and shows as a contradiction. How unseen five
    lobes stand to the others is not known: what they take lies between the bounds of `losses`, as `lean` says.
    """
    needed = _needed(sheet)
    if scores.ndim != 2 or scores.shape[1] < needed:
        raise ValueError(f"a bore needs at least {needed} columns of scores")
    beta = _parameters(found, sheet, scores[:, :UNKNOWNS])
    axis = Axis(beta[SIZE], beta[TAPER] * sheet.seat_depth / 2, beta[BOW], sheet.seat_depth)
    two, three, five = (np.hypot(*beta[list(places)]) for places in (TWO_LOBES, THREE_LOBES, FIVE_LOBES))
    most_two, most_three = _most(sheet, "two_point", two, scores), _most(sheet, "three_point", three, scores)
    narrower, wider = _taken(sheet, 2 * most_two - two, 2 * most_three - three, five, scores)
    by_readings = np.ones(len(two))
    by_readings *= _turns_likelihood(sheet, "two_point", two, beta, mistaken)
    by_readings *= _turns_likelihood(sheet, "three_point", three, beta, mistaken)
    for span in sorted((each for each in spans(sheet) if not each.full_turn), key=repr):
        by_readings *= _allowing(_swing_likelihood(span, two, three), mistaken, sized=False)
    weights = by_readings.copy()
    for gauge in sorted(sheet.gauges, key=repr):
        weights *= _allowing(likelihood(gauge, axis, narrower), mistaken, sized=stopped(gauge, sheet.seat_depth))
    weights /= weights.sum()
    mouth, bottom = axis.at(0.0), axis.at(sheet.seat_depth)
    return Draws(
        axis=axis, mean=axis.mean(), mouth=mouth, bottom=bottom, taper=mouth - bottom, ovality=2 * most_two,
        lobing=2 * most_three, loss=narrower, inscribed=axis.narrowest(sheet.seat_depth) - narrower,
        widest=axis.widest() + wider, weights=weights, reading_weights=by_readings / by_readings.sum(),
        effective_count=float(1 / np.sum(weights**2)), confidence=sheet.confidence, local=2 * (most_two - two),
    )


def _taken(sheet: Sheet, two: Array, three: Array, five: Array, scores: Array) -> tuple[Array, Array]:
    """Return what form takes from the inscribed and adds to the circumscribed diameter.

    Of a scanned bore it is that of the points themselves, with their noise; how far the bore is from straight between
    its sections lies between the bounds of the scan.
    """
    share = _shares(scores[:, UNKNOWNS].tobytes())
    if not sheet.scans:
        least, most = losses(two, three, five)
        taken = least + (most - least) * share ** lean(two, three, five)
        return taken, taken
    seen = form_of(sheet.scans)
    noise = max(each.u for each in sheet.scans) * scores[:, NOISE]
    return np.maximum(seen.inside + seen.bent * share + noise, 0.0), np.maximum(seen.outside - noise, 0.0)


@lru_cache(maxsize=4)
def _shares(scores: bytes) -> Array:
    """Return the probability below each score; every bore is drawn with the same."""
    return normal_cdfs(np.frombuffer(scores))


def _parameters(found: Posterior, sheet: Sheet, scores: Array) -> Array:
    """Return draws of the unknowns, shape (9, count)."""
    turn = along_lobes(found.mean) if sheet.scans else reoriented(sheet)
    root = np.linalg.cholesky(turn @ found.covariance @ turn.T)
    drawn: Array = (turn @ found.mean)[:, None] + root @ scores.T
    return drawn


def _allowing(explained: Array, mistaken: float, *, sized: bool) -> Array:
    """Return the likelihood of a result that may be mistaken; a mistaken size may lie anywhere in 100 of its doubts."""
    chance = mistaken * np.sqrt(2 * np.pi) / 100 if sized else mistaken
    return chance + (1 - chance) * explained


def _turns_likelihood(sheet: Sheet, sees: Sees, amplitude: Array, beta: Array, mistaken: float) -> Array:
    """Return how well each draw explains the full turns of a kind, over what the linear model took them for.

    The model averages the swings of full turns taken alone, doubted by as much as they lie apart; here each counts as
    what it is.
    """
    turns, alone = full_turns(sheet, sees), bool(taken_alone(sheet, sees))
    swing = 2 * (beta[PLACES[sees][0]] if alone else amplitude)
    found = np.ones(len(amplitude))
    for turn in turns:
        found *= _allowing(explained(swing, turns, turn, sheet.assumptions), mistaken, sized=True)
        if alone:
            found /= bell((swing - turn.swing) / np.hypot(turn.doubt, 2 * apart(turns) / np.sqrt(turn.taken)))
    return found


def _most(sheet: Sheet, sees: Sees, amplitude: Array, scores: Array) -> Array:
    """Return the amplitude at the depth that swings most in full turns, no less than that of the lobes all along."""
    turns = full_turns(sheet, sees)
    return largest_swing(2 * amplitude, turns, sheet.assumptions, scores[:, [PLACE, NOISE]]) / 2 if turns else amplitude


def _needed(sheet: Sheet) -> int:
    """Return how many columns of scores a bore needs."""
    if any(each.full_turn for each in sheet.spans):
        return PLACE + 1
    return NOISE + 1 if sheet.scans else UNKNOWNS + 1


def _swing_likelihood(span: Span, two: Array, three: Array) -> Array:
    """Return how well each draw explains readings at unknown turns of one depth: they bound the form from below."""
    swing, doubt = span.largest - span.smallest, np.sqrt(2.0) * span.u
    if span.depth is None or swing <= 0:
        return np.ones(len(two))
    return normal_cdfs((2 * (two if span.sees == "two_point" else three) - swing) / doubt)

"""How often a set of readings settles what is asked of a bore, over simulated benches with the errors stated."""

from collections.abc import Sequence

import numpy as np

from recommender.asking.demands import Demand
from recommender.asking.fields import drawn, field_of, interval
from recommender.asking.joint import joint
from recommender.asking.scores import Array, fixed_scores
from recommender.metrology.normal import normal_cdfs
from recommender.metrology.rows import UNKNOWNS, rows
from recommender.metrology.sheet import Sheet

BENCHES, DRAWS = 200, 400
RECTANGULAR = "instrument "
RECTANGLE = float(np.sqrt(3.0))


def settled_share(sheet: Sheet, demands: Sequence[Demand]) -> dict[Demand, float]:
    """Return for each demand the share of simulated benches on which it is met.

    The bore is round, parallel and of the size the readings show; the benches differ by the errors of their readings:
    error limits rectangular, all others normal.
    """
    found = joint(sheet)
    errors = _errors(sheet, len(found.names))
    scores = fixed_scores(DRAWS, UNKNOWNS + 1)
    spread = drawn(found.covariance, scores)
    beta = (found.mean[:UNKNOWNS] + errors)[:, :, None] + spread.T.reshape(1, DRAWS, UNKNOWNS).transpose(0, 2, 1)
    flat = beta.transpose(1, 0, 2).reshape(UNKNOWNS, -1)
    five = np.tile(scores[:, UNKNOWNS], BENCHES)
    shares = {}
    for field in dict.fromkeys(each.field for each in demands):
        values = field_of(field, flat, five, sheet.seat_depth).reshape(BENCHES, DRAWS)
        low, high = interval(values, sheet.confidence)
        shares.update({each: float(np.mean(_inside(each, low, high))) for each in demands if each.field == field})
    return shares


def all_settled_share(sheet: Sheet, demands: Sequence[Demand]) -> float:
    """Return the least share over the demands, 1 where nothing is demanded."""
    return min(settled_share(sheet, demands).values(), default=1.0)


def _inside(demand: Demand, low: Array, high: Array) -> Array:
    above = low >= demand.low if demand.low is not None else np.ones(len(low), dtype=bool)
    below = high <= demand.high if demand.high is not None else np.ones(len(low), dtype=bool)
    return np.asarray(above & below, dtype=np.float64)


def _errors(sheet: Sheet, shared: int) -> Array:
    """Return how far the estimate of each bench is off, shape (benches, 9): own errors together, shared ones apart."""
    made, found = rows(sheet), joint(sheet)
    design = np.zeros((len(made), UNKNOWNS + shared))
    for place, row in enumerate(made):
        design[place, :UNKNOWNS] = row.coefficients
        for name, u in row.shared:
            design[place, UNKNOWNS + found.names.index(name)] += u
    variances = np.array([row.variance for row in made])
    solve = (found.covariance @ (design.T / variances))[:UNKNOWNS]
    own = (solve * variances) @ solve.T
    scores = fixed_scores(BENCHES, UNKNOWNS + shared)
    size, turn = np.linalg.eigh(own)
    errors: Array = scores[:, :UNKNOWNS] @ (turn * np.sqrt(size.clip(min=0.0))).T
    for place, name in enumerate(found.names):
        score = scores[:, UNKNOWNS + place]
        each = RECTANGLE * (2 * normal_cdfs(score) - 1) if name.startswith(RECTANGULAR) else score
        errors = errors + np.outer(each, solve @ design[:, UNKNOWNS + place])
    return errors

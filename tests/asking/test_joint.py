"""What one more reading changes, before it is taken."""

import numpy as np
import pytest

from recommender.asking.joint import Joint, joint
from recommender.asking.outlook import outlook
from recommender.asking.scores import even_shares, fixed_scores
from recommender.metrology.model import posterior
from recommender.metrology.rows import UNKNOWNS
from recommender.metrology.sheet import Assumptions, Reading, Sheet

ASSUMED = Assumptions(ovality_sd=0.008, lobing_sd=0.005, five_lobe_sd=0.002, curvature_sd=0.002, taper_sd=0.004)


def reading(value: float, turn: float, depth: float = 5.0, sees="two_point", u: float = 0.002) -> Reading:
    return Reading(value, sees, sees, depth, turn, u, ((f"instrument {sees}", 0.002), ("temperature", 0.0005)))


def sheet(*readings: Reading) -> Sheet:
    return Sheet(readings, (), (), 10.0, ASSUMED)


TAKEN = (reading(41.002, 0.0, 2.0), reading(40.999, 90.0, 8.0), reading(41.0, 0.0, 2.0, "three_point"))


def test_without_shared_errors_left_out_it_is_the_posterior() -> None:
    found, known = joint(sheet(*TAKEN)), posterior(sheet(*TAKEN))
    assert found.mean[:UNKNOWNS] == pytest.approx(known.mean, abs=1e-9)
    assert found.covariance[:UNKNOWNS, :UNKNOWNS] == pytest.approx(known.covariance, rel=1e-6, abs=1e-12)


def test_a_candidate_leaves_what_the_longer_sheet_leaves() -> None:
    more = reading(41.004, 45.0)
    now = joint(sheet(*TAKEN), [more])
    longer = joint(sheet(*TAKEN, more))
    assert now.after(more) == pytest.approx(longer.covariance, rel=1e-6, abs=1e-12)
    middle, _ = now.predicted(more)
    assert now.mean + now.gain(more) * (more.value - middle) == pytest.approx(longer.mean, abs=1e-9)


def test_a_reading_between_the_turns_tells_most_of_an_oval_bore() -> None:
    """Components of 20 um, size free, 4 um readings at 0 and 90: of the other component 20, 5.644 or 4.758 are left."""
    prior = np.diag([1e6, 20.0**2, 20.0**2])
    left = {}
    for turn in (0, 30, 45, 60):
        turns = np.radians([0, 90, turn])
        design = np.column_stack([np.ones(3), np.cos(2 * turns), np.sin(2 * turns)])
        left[turn] = np.sqrt(np.linalg.inv(np.linalg.inv(prior) + design.T @ design / 16)[2, 2])
    assert [left[0], left[30], left[60]] == pytest.approx([20, 5.644, 5.644], abs=1e-3)
    known = np.zeros((UNKNOWNS, UNKNOWNS))
    known[0, 0], known[2, 2], known[3, 3] = 1e6, 400.0, 400.0
    now = Joint(np.zeros(UNKNOWNS), known, (), 10.0)
    for turn in (0.0, 90.0):
        now = now._replace(covariance=now.after(Reading(0, "two", "two_point", 5.0, turn, 4.0)))
    for turn, sd in ((0.0, 20.0), (30.0, 5.644), (45.0, 4.758), (135.0, 4.758)):
        after = now.after(Reading(0, "two", "two_point", 5.0, turn, 4.0))
        assert np.sqrt(after[3, 3]) == pytest.approx(sd, abs=2e-3)


def test_a_candidate_needs_a_place() -> None:
    with pytest.raises(ValueError, match="depth and a turn"):
        joint(sheet(*TAKEN)).row(TAKEN[0]._replace(turn=None))


def test_scores_are_even_and_fixed() -> None:
    scores = fixed_scores(512, 12)
    assert scores.mean(axis=0) == pytest.approx(0, abs=1e-12)
    assert scores.std(axis=0) == pytest.approx(1, abs=1e-12)
    assert np.abs(np.corrcoef(scores.T) - np.eye(12)).max() < 1e-12
    assert even_shares(8).sum() == pytest.approx(0, abs=1e-12)
    with pytest.raises(ValueError, match="read-only"):
        scores[0, 0] = 1


def test_an_outlook_without_readings_knows_what_is_known_now() -> None:
    now = joint(sheet(*TAKEN))
    assert outlook(now).after is now

import numpy as np
import pytest

from recommender.metrology.conformity import conformity, conformity_between, conformity_of_normal
from recommender.metrology.scores import normal_scores

LOWER, UPPER = 41.000, 41.025


@pytest.mark.parametrize(
    ("value", "answer", "probability"),
    [
        (41.0020, "not_proved", 0.841),
        (41.0035, "proved_conforming", 0.960),
        (41.0220, "not_proved", 0.933),
        (41.0295, "proved_not_conforming", 0.012),
        (41.0034, "proved_conforming", 0.955),
        (40.9966, "proved_not_conforming", 0.045),
        (40.9968, "not_proved", 0.055),
    ],
)
def test_a_bore_41_h7_measured_to_2_um(value: float, answer: str, probability: float) -> None:
    found = conformity_of_normal(value, 0.002, LOWER, UPPER)
    assert found.answer == answer
    assert found.probability == pytest.approx(probability, abs=0.001)


@pytest.mark.parametrize("value", [40.9960, 41.0020, 41.0035, 41.0120, 41.0220, 41.0295])
def test_draws_give_the_answer_of_the_normal(value: float) -> None:
    draws = value + 0.002 * normal_scores(1)[:, 0]
    found = conformity(draws, np.full(4096, 1 / 4096), LOWER, UPPER)
    exact = conformity_of_normal(value, 0.002, LOWER, UPPER)
    assert found.answer == exact.answer
    assert found.probability == pytest.approx(exact.probability, abs=0.001)


def test_weights_count() -> None:
    values, weights = np.array([40.0, 41.01]), np.array([0.02, 0.98])
    assert conformity(values, weights, LOWER, UPPER).answer == "proved_conforming"
    assert conformity(values, weights[::-1], LOWER, UPPER).answer == "proved_not_conforming"


def test_one_limit_is_enough_and_none_is_no_answer() -> None:
    assert conformity_of_normal(41.5, 0.002, LOWER, None).answer == "proved_conforming"
    assert conformity_of_normal(41.5, 0.002, None, UPPER).answer == "proved_not_conforming"
    assert conformity_of_normal(41.5, 0.002, None, None) == ("no_published_limit", None)
    assert conformity(np.array([41.0]), np.array([1.0]), None, None).answer == "no_published_limit"


def test_an_uncertain_reading_can_prove_nothing_either_way() -> None:
    assert conformity_of_normal(41.0125, 0.020, LOWER, UPPER).answer == "not_proved"


def test_a_stricter_level_proves_less() -> None:
    assert conformity_of_normal(41.0035, 0.002, LOWER, UPPER, level=0.99).answer == "not_proved"


def test_local_sizes_are_those_a_two_point_gauge_reads_at_most_and_the_envelope_asks_more(bench) -> None:
    """Bore of 41.000 at mid seat, 20 um wider at the face, oval by 10 um: 41.010 + 0.005 at most."""
    bore = np.array([41.000, -0.020 / bench.seat, 0.005, 0, 0.004, 0, 0, 0, 0])
    sheet = bench.sheet(*bench.read("two_point", (0, 60, 120), (1, 8, 15), 0.0002, 0.0, bore),
                        *bench.read("three_point", (0, 40, 80), (1, 8, 15), 0.0002, 0.0, bore))
    made = bench.draws(sheet)
    assert float(made.weights @ made.largest_local) == pytest.approx(41.015, abs=5e-4)
    assert float(made.weights @ made.smallest_local) == pytest.approx(40.985, abs=5e-4)
    assert float(made.weights @ made.widest) > float(made.weights @ made.largest_local)


def test_two_sizes_are_proved_together() -> None:
    scores = 0.002 * normal_scores(2)
    small, large = 41.0035 + scores[:, 0], 41.0215 + scores[:, 1]
    weights = np.full(len(scores), 1 / len(scores))
    found = conformity_between(small, large, weights, LOWER, UPPER)
    assert found.probability == pytest.approx(0.960 * 0.960, abs=0.004)
    assert found.answer == "not_proved"
    assert conformity_between(small, large, weights, LOWER, None).answer == "proved_conforming"
    assert conformity_between(small, large, weights, None, None).answer == "no_published_limit"

"""A three-point gauge reads the tightest diameter or larger, never smaller; it locks in a bore with three lobes.

Source: common practice among bench engineers, no printed source; both statements derived here from the geometry of an
equilateral triangle in the section, with the exact position of the head.
"""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.metrology.circles import maximum_inscribed
from recommender.metrology.response import lobed, three_point, two_point

phases = st.floats(0.0, 360.0)
lobes = st.lists(st.tuples(st.integers(2, 9), st.floats(0.0, 0.03), phases), max_size=4)
CHORD = 1e-5


def _inscribed(section) -> float:
    angles = np.arange(720) * 2 * np.pi / 720
    radius = section(angles)
    return maximum_inscribed(np.stack([radius * np.cos(angles), radius * np.sin(angles)], axis=1)).diameter


@settings(max_examples=60, deadline=None)
@given(lobes, phases)
def test_no_bore_reads_below_its_inscribed_circle(form, turn: float) -> None:
    section = lobed(20.5, *form)
    between_points = sum(amplitude * (number * np.pi / 720) ** 2 for number, amplitude, _ in form)
    inscribed = _inscribed(section) - between_points - CHORD
    assert three_point(section, turn).value >= inscribed


def test_in_an_oval_bore_it_reads_half_the_ovality_above_the_tightest() -> None:
    section = lobed(20.5, (2, 0.010, 30.0))
    tightest = min(two_point(section, turn) for turn in range(180))
    for turn in (0.0, 25.0, 80.0):
        assert abs(three_point(section, turn).value - tightest - 0.020) < 1e-4


def test_in_a_three_lobed_bore_it_can_read_below_the_smallest_two_point_diameter() -> None:
    section = lobed(20.5, (3, 0.010, 0.0))
    smallest_two_point = min(two_point(section, turn) for turn in range(180))
    assert min(three_point(section, turn).value for turn in range(120)) < smallest_two_point - 0.019


def test_a_snug_head_locks_over_three_lobes_and_turns_freely_in_an_oval() -> None:
    three = [three_point(lobed(20.5, (3, 0.010, 0.0)), turn).value for turn in range(120)]
    oval = [three_point(lobed(20.5, (2, 0.010, 0.0)), turn).value for turn in range(120)]
    assert np.ptp(three) > 0.039
    assert np.ptp(oval) < 1e-4

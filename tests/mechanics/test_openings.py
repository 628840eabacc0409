"""Openings beside a seat: tables read, signs kept apart, what fades and what adds up."""

import numpy as np
import pytest

from recommender.mechanics.openings import (
    FULL_DEPTH_SLOT,
    PLAIN,
    Factors,
    OpeningTable,
    Row,
    at_joint,
    faded,
    port,
    recess,
    strains,
    worst,
)

PORTS = OpeningTable(
    (
        Row(0.125, Factors(7.6, 1.8)),
        Row(0.25, Factors(5.2, 1.7)),
        Row(0.75, Factors(3.5, 1.3)),
    )
)
RECESSES = OpeningTable(
    (
        Row(1 / 3, Factors(6.1, 3.4, 0.11)),
        Row(0.5, Factors(3.6, 1.0, 0.80)),
        Row(2 / 3, Factors(2.7, 0.65, 0.88)),
        Row(1.0, PLAIN),
    )
)


@pytest.mark.parametrize(
    ("ligament", "expected"),
    [(1.0, (7.6, 1.8)), (2.0, (5.2, 1.7)), (4.0, (4.35, 1.5)), (6.0, (3.5, 1.3)), (60.0, (3.5, 1.3))],
)
def test_port_between_its_table_rows(ligament: float, expected: tuple[float, float]) -> None:
    assert port(ligament, 8.0, PORTS)[:2] == pytest.approx(expected)


def test_ligament_thinner_than_the_table_is_unknown_not_fine() -> None:
    assert port(0.9, 8.0, PORTS) == (np.inf, np.inf, 0.0)
    assert recess(0.5, 3.0, RECESSES) == (np.inf, np.inf, 0.0)


def test_recess_between_its_table_rows() -> None:
    assert recess(1.5, 3.0, RECESSES) == pytest.approx((3.6, 1.0, 0.80))
    assert recess(3.0, 3.0, RECESSES) == pytest.approx((1.0, 0.0, 1.0))
    assert recess(1.25, 3.0, RECESSES) == pytest.approx((4.85, 2.2, 0.455))


def test_draws_are_read_one_by_one() -> None:
    assert port(np.array([1.0, 6.0]), 8.0, PORTS).tension == pytest.approx([7.6, 3.5])


def test_joint_that_carries_half_doubles_the_tension_only() -> None:
    assert at_joint(Factors(3.5, 1.3), 0.5) == pytest.approx((7.0, 1.3, 1.0))
    assert at_joint(PLAIN, 0.5) == pytest.approx((2.0, 0.0, 1.0))


def test_whole_within_one_decay_length_and_fading_beyond() -> None:
    opening = Factors(3.5, 1.3, 0.8)
    assert faded(opening, 0.0, 6.3) == pytest.approx(opening)
    assert faded(opening, 6.3, 6.3) == pytest.approx(opening)
    assert faded(opening, 12.6, 6.3) == pytest.approx((1 + 2.5 / np.e, 1.3 / np.e, 1 - 0.2 / np.e))
    assert faded(opening, 100.0, 6.3) == pytest.approx(PLAIN, abs=1e-5)


def test_several_openings_count_by_their_strictest() -> None:
    assert worst([Factors(3.5, 1.3), Factors(2.6, 3.1, 0.5)]) == pytest.approx((3.5, 3.1, 0.5))
    assert worst([]) == PLAIN
    assert worst([FULL_DEPTH_SLOT]) == pytest.approx((1.0, 0.0, 0.0))


def test_plain_ring_stretches_by_hoop_and_bending() -> None:
    assert strains(0.001, 0.0004, PLAIN) == pytest.approx((0.0014, 0.0))
    assert strains(0.001, 0.0015, PLAIN) == pytest.approx((0.0025, 0.0005))


def test_port_brings_compression_into_a_shell_that_is_only_pushed_outwards() -> None:
    assert strains(0.001, 0.0, Factors(3.5, 1.3)) == pytest.approx((0.0035, 0.0013))
    assert strains(0.001, 0.002, Factors(3.5, 1.3)) == pytest.approx((0.0105, 0.0039))


def test_an_opening_that_takes_tension_away_takes_no_compression_from_what_is_pushed_in_elsewhere() -> None:
    """A full slot carries no hoop: beside it bending still pushes the ring in by 0.0015 less 0.001."""
    assert strains(0.001, 0.0015, Factors(0.4, 0.0)) == pytest.approx((0.001, 0.0005))


def test_a_loose_part_strains_nothing_even_beside_an_unknown_opening() -> None:
    assert strains(0.0, 0.0, Factors(np.inf, np.inf, 0.0)) == (0.0, 0.0)


def test_a_table_that_does_not_rise_is_refused() -> None:
    for rows in ((), (Row(0.5, PLAIN), Row(0.5, PLAIN))):
        with pytest.raises(ValueError, match="ratio rises"):
            OpeningTable(rows)
    with pytest.raises(ValueError, match="ratio"):
        port(-1.0, 8.0, PORTS)
    with pytest.raises(ValueError, match="strength_left"):
        at_joint(PLAIN, 0.0)

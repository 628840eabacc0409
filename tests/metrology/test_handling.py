"""How an instrument sits in a bore. Values for 41 mm were worked out apart from this code with the chord rule."""

from math import radians, sqrt

import numpy as np
import pytest
from scipy import stats

from recommender.metrology.handling import off_centre, off_narrow_ends, on_lands, one_sided, tilted
from recommender.metrology.model import posterior
from recommender.metrology.rows import SIZE, TAPER
from recommender.metrology.sheet import Reading, Span

UM = 1e-3


@pytest.mark.parametrize(("offset", "error"), [(0.1, -0.49), (0.2, -1.95), (0.5, -12.2)])
def test_off_centre_two_contacts_read_small(offset: float, error: float) -> None:
    assert off_centre(41.0, offset) == pytest.approx(error * UM, abs=0.05 * UM)


@pytest.mark.parametrize(("degrees", "two", "three"), [(0.5, 1.56, 0.78), (1, 6.25, 3.12), (2, 25.0, 12.5)])
def test_a_leaning_head_reads_large_with_three_contacts_half_as_much(degrees: float, two: float, three: float) -> None:
    assert tilted(41.0, radians(degrees), "two_point") == pytest.approx(two * UM, abs=0.03 * UM)
    assert tilted(41.0, radians(degrees), "three_point") == pytest.approx(three * UM, abs=0.03 * UM)


@pytest.mark.parametrize(("width", "error"), [(0.5, -3.0), (1.0, -12.2)])
def test_flat_jaws_rest_on_their_edges(width: float, error: float) -> None:
    assert on_lands(41.0, width) == pytest.approx(error * UM, abs=0.06 * UM)


def test_an_error_anywhere_up_to_its_end_is_half_of_it_and_rectangular() -> None:
    assert one_sided(-12.0) == (-6.0, pytest.approx(12 / 12**0.5))


def _read_on_narrow_ends(bench, taper: float, length: float) -> tuple[Reading, ...]:
    """Three-point readings of contacts of a length, centred at the depth written down."""
    return tuple(
        Reading(41.0 + taper * (depth - 8) - abs(taper) * length / 2, "mic", "three_point", depth, turn, 0.0005)
        for depth in (2.0, 8.0, 14.0) for turn in (0, 40, 80))


@pytest.mark.parametrize("taper", [-0.006, -0.002, 0.002, 0.006])
def test_long_contacts_in_a_taper_are_put_right_within_the_doubt_left(bench, taper: float) -> None:
    length = 4.0
    raw = bench.sheet(*_read_on_narrow_ends(bench, taper, length))
    found, plain = posterior(off_narrow_ends(raw, {"mic": length})), posterior(raw)
    off, before = abs(found.mean[SIZE] - 41.0), abs(plain.mean[SIZE] - 41.0)
    assert before > 4 * plain.covariance[SIZE, SIZE] ** 0.5
    assert off < 2 * found.covariance[SIZE, SIZE] ** 0.5
    assert off < 0.55 * before
    assert found.mean[TAPER] == pytest.approx(taper, abs=2e-4)


def test_point_contacts_stay_as_they_are(bench) -> None:
    raw = bench.sheet(*bench.read("two_point", (0, 60, 120), (2, 8)))
    assert off_narrow_ends(raw, {"two": 0.0}) == raw


def test_the_doubt_left_is_that_of_the_taper_and_of_how_much_of_the_contact_is_worn(bench) -> None:
    """Compared with scipy: a taper without its sign is a folded normal; a quarter of the length takes part in it."""
    length, raw = 4.0, bench.sheet(*_read_on_narrow_ends(bench, 0.0002, 4.0))
    found = posterior(raw)
    doubt = sqrt(found.covariance[TAPER, TAPER])
    steep = stats.foldnorm(found.mean[TAPER] / doubt, scale=doubt)
    reading = off_narrow_ends(raw, {"mic": length}).readings[0]
    assert reading.value - raw.readings[0].value == pytest.approx(length / 4 * steep.mean(), rel=1e-6)
    assert dict(reading.shared)["contacts mic"] == pytest.approx(
        np.hypot(length / 4 * steep.std(), length / 2 * steep.mean() / sqrt(12)), rel=1e-6)


def test_only_readings_of_the_instrument_with_long_contacts_are_put_right(bench) -> None:
    swing = Span(40.99, 41.01, "two", "two_point", 8.0, 0.001)
    raw = bench.sheet(*_read_on_narrow_ends(bench, 0.006, 4.0), *bench.read("two_point", (0, 60, 120), (2, 8)),
                      spans=(swing, swing._replace(instrument="mic", sees="three_point")))  # fmt: skip
    found = off_narrow_ends(raw, {"mic": 4.0})
    assert found.readings[9:] == raw.readings[9:]
    assert found.spans[0] == swing
    assert all(after.value > before.value for before, after in zip(raw.readings[:9], found.readings[:9], strict=True))
    assert found.spans[1].largest - found.spans[1].smallest == pytest.approx(0.02)
    assert found.spans[1].smallest > swing.smallest


def test_no_sheet_no_correction(bench) -> None:
    assert off_narrow_ends(bench.sheet(), {"mic": 4.0}) == bench.sheet()

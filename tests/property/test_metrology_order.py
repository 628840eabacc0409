"""What must not change the result: order of readings, where turn zero lies, from which face the bore is seen, scale."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.metrology.agreement import agreement
from recommender.metrology.draws import Draws, draw
from recommender.metrology.model import posterior
from recommender.metrology.rows import THREE_LOBES, TWO_LOBES
from recommender.metrology.scores import normal_scores
from recommender.metrology.sheet import Assumptions, Gauge, Reading, Sees, Sheet, Span
from recommender.metrology.summary import summarise

ASSUMED = Assumptions(0.008, 0.005, 0.002, 0.002, 0.004, 0.001, local_share=0.02, local_most=0.03)
FIELDS = ("mean", "mouth", "bottom", "taper", "ovality", "lobing", "inscribed", "widest", "weights")
NAMES: dict[Sees, str] = {"two_point": "two", "three_point": "mic"}

microns = st.integers(-40, 40).map(lambda step: 41.0 + step / 1000)
readings = st.builds(
    lambda value, sees, depth, turn: Reading(value, NAMES[sees], sees, depth, turn, 0.001,
                                             ((f"instrument {NAMES[sees]}", 0.002), ("temperature", 0.0005))),
    microns, st.sampled_from(sorted(NAMES)), st.sampled_from([2.0, 5.0, 8.0]),
    st.integers(0, 23).map(lambda step: 15.0 * step),
)
spans = st.builds(
    lambda low, swing, sees, depth, full: Span(low, low + swing / 1000, NAMES[sees], sees, depth, 0.001,
                                               ((f"instrument {NAMES[sees]}", 0.002),), full),
    microns, st.integers(0, 30), st.sampled_from(sorted(NAMES)), st.sampled_from([None, 2.0, 8.0]), st.booleans(),
)
gauges = st.builds(
    lambda size, result, depth: Gauge("go", size, 0.001, result, depth),
    microns, st.sampled_from(["enters_fully", "entered_to", "did_not_enter"]), st.sampled_from([None, 4.0]),
)
sheets = st.builds(
    lambda read, swept, tried: Sheet(tuple(read), tuple(swept), tuple(tried), 10.0, ASSUMED),
    st.lists(readings, min_size=1, max_size=12), st.lists(spans, max_size=2), st.lists(gauges, max_size=2),
)
few = settings(max_examples=25, deadline=None)


def _draws(sheet: Sheet) -> Draws:
    return draw(posterior(sheet), sheet, normal_scores(12))


def _same(one: Draws, two: Draws, tolerance: float = 1e-8) -> None:
    for field in FIELDS:
        np.testing.assert_allclose(getattr(one, field), getattr(two, field), rtol=0, atol=tolerance)


def _turned(sheet: Sheet, move: Callable[[float], float]) -> Sheet:
    return sheet._replace(readings=tuple(each._replace(turn=move(each.turn or 0.0) % 360) for each in sheet.readings))


@few
@given(sheets, st.randoms(use_true_random=False))
def test_order_of_readings_changes_no_byte(sheet: Sheet, shuffle) -> None:
    mixed = [list(sheet.readings), list(sheet.spans), list(sheet.gauges)]
    for each in mixed:
        shuffle.shuffle(each)
    other = sheet._replace(readings=tuple(mixed[0]), spans=tuple(mixed[1]), gauges=tuple(mixed[2]))
    assert posterior(sheet).mean.tobytes() == posterior(other).mean.tobytes()
    assert posterior(sheet).covariance.tobytes() == posterior(other).covariance.tobytes()
    one, two = _draws(sheet), _draws(other)
    for field in FIELDS:
        assert getattr(one, field).tobytes() == getattr(two, field).tobytes()


@few
@given(sheets, st.integers(1, 359))
def test_where_turn_zero_lies_changes_nothing_but_the_phase(sheet: Sheet, by: int) -> None:
    other = _turned(sheet, lambda turn: turn + by)
    one, two = posterior(sheet), posterior(other)
    assert np.hypot(*one.mean[list(TWO_LOBES)]) == pytest.approx(np.hypot(*two.mean[list(TWO_LOBES)]), abs=1e-9)
    assert np.hypot(*one.mean[list(THREE_LOBES)]) == pytest.approx(np.hypot(*two.mean[list(THREE_LOBES)]), abs=1e-9)
    assert agreement(sheet).chi2 == pytest.approx(agreement(other).chi2, rel=1e-6, abs=1e-6)
    _same(_draws(sheet), _draws(other))


@few
@given(sheets)
def test_seen_from_the_other_face_the_bore_is_the_same(sheet: Sheet) -> None:
    _same(_draws(sheet), _draws(_turned(sheet, lambda turn: -turn)))


@few
@given(sheets, st.sampled_from([0.5, 2.0, 25.4]))
def test_a_larger_bore_with_larger_doubts_is_larger_in_all(sheet: Sheet, by: float) -> None:
    def shared(each: Reading | Span) -> tuple[tuple[str, float], ...]:
        return tuple((name, u * by) for name, u in each.shared)

    grown = Sheet(
        tuple(e._replace(value=e.value * by, u=e.u * by, shared=shared(e)) for e in sheet.readings),
        tuple(e._replace(smallest=e.smallest * by, largest=e.largest * by, u=e.u * by, shared=shared(e))
              for e in sheet.spans),
        tuple(e._replace(size=e.size * by, u=e.u * by) for e in sheet.gauges),
        sheet.seat_depth, Assumptions(*(each * by for each in ASSUMED))._replace(local_share=ASSUMED.local_share),
    )
    one, two = _draws(sheet), _draws(grown)
    for field in FIELDS:
        factor = 1.0 if field == "weights" else by
        np.testing.assert_allclose(getattr(two, field), getattr(one, field) * factor, rtol=0, atol=1e-7 * by)


@few
@given(sheets)
def test_inscribed_mean_and_widest_stand_in_order_and_weights_sum_to_one(sheet: Sheet) -> None:
    made = _draws(sheet)
    assert np.all(made.inscribed <= made.mean)
    assert np.all(made.mean <= made.widest)
    assert made.weights.sum() == pytest.approx(1.0)
    assert np.all(made.weights >= 0)
    assert 1 <= made.effective_count <= 4096 + 1e-6
    for field in FIELDS[:-1]:
        found = summarise(getattr(made, field), made.weights, made.effective_count)
        assert found.low <= found.value <= found.high

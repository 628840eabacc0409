"""Instruments that do not suit the bore, and what their papers claim."""

from typing import Any

import pytest

from recommender.deriving.spreads import scalar_spread
from tests.deriving.conftest import CASE, INSTRUMENT, THREE_POINT, TWO_POINT

FINE = {"id": "two", "kind": "two_point_gauge", "error_limit": "4 um", **INSTRUMENT}


def tools(*each: dict[str, Any]) -> dict[str, Any]:
    return {"bench.instruments": list(each)}


def with_tool(kind: str, **more: Any) -> dict[str, Any]:
    known = {key: value for key, value in INSTRUMENT.items() if key != "range"}
    return tools({"id": "mic", "kind": kind, **known, **more}, FINE)


def test_ordinary_instruments_suit_an_ordinary_seat(derived) -> None:
    facts = derived().sides["drive"].facts
    numbers = [facts[f"evidence.{each}_missed"] for each in ("range", "reach", "guide")]
    assert [each.high for each in numbers] == [0.0, 0.0, 0.0]
    assert facts["evidence.claims_believed"].word is True
    assert facts["evidence.feel_repeated"].word is True


def test_a_stick_micrometer_is_below_its_sizes(derived) -> None:
    facts = derived(with_tool("stick_micrometer")).sides["drive"].facts
    assert facts["evidence.range_missed"].value == pytest.approx(50 - 45.971, abs=1e-3)
    assert facts["evidence.feel_repeated"].word is False


def test_places_read_twice_answer_for_the_hand(derived, sound) -> None:
    twice = {**THREE_POINT, "at": {"2": [[45.972, 45.973], 45.972, 45.973]}}
    side = {**CASE["sides"]["drive"], "readings": [twice, TWO_POINT]}
    facts = derived(with_tool("rod_micrometer") | {"sides.drive": side}).sides["drive"].facts
    assert facts["evidence.feel_repeated"].word is True


def test_calliper_jaws_do_not_reach_a_deep_reading(derived) -> None:
    deep = {**THREE_POINT, "at": {"2": [45.97, 45.98, 45.97], "18": [45.97, 45.98, 45.97]}}
    side = {**CASE["sides"]["drive"], "seat_depth": "20 mm", "readings": [deep, TWO_POINT]}
    facts = derived(with_tool("inside_micrometer_jaws") | {"sides.drive": side}).sides["drive"].facts
    assert facts["evidence.reach_missed"].value == 3.0


def test_a_head_leans_in_a_seat_too_short_to_guide_it(derived, sound) -> None:
    short = {**CASE["sides"]["drive"], "seat_depth": "5 mm", "readings": [
        {**THREE_POINT, "at": {"1": [45.972, 45.972, 45.973], "4": [45.972, 45.971, 45.972]}},
        {**TWO_POINT, "at": {"1": [45.973, 45.971, 45.972], "4": [45.972, 45.971, 45.973]}}]}
    long = {**short, "seat_depth": "6 mm"}
    leaning, square = (derived({"sides.drive": each}).sides["drive"].facts for each in (short, long))
    missed = leaning["evidence.guide_missed"]
    assert (missed.value, missed.low) == (1.0, pytest.approx(0.8))
    assert leaning["bore.mean_diameter"].value < square["bore.mean_diameter"].value - 0.0005
    assert leaning["evidence.size_doubt"].value > square["evidence.size_doubt"].value


@pytest.mark.parametrize("claimed", ["0.0001 um", "1.9 um"])
def test_a_claim_finer_than_the_kind_counts_as_the_finest_of_its_kind(derived, claimed: str) -> None:
    absurd = derived(with_tool("three_point_micrometer", error_limit=claimed)).sides["drive"].facts
    finest = derived(with_tool("three_point_micrometer", error_limit="2 um")).sides["drive"].facts
    assert absurd["evidence.claims_believed"].word is False
    assert finest["evidence.claims_believed"].word is True
    assert absurd["bore.mean_diameter"] == finest["bore.mean_diameter"]
    assert absurd["evidence.size_doubt"].value > 1.0


def test_a_stated_spread_of_next_to_nothing_is_not_believed(case_with, book) -> None:
    case = case_with({"parts": [{"part": "polymer_cup_46", "side": "drive",
                                 "od": {"value": "46.032 mm", "within": "0.0001 um"}}]}).case
    assert scalar_spread(case.parts[0].od, "part_od", case, book).u == pytest.approx(0.0005 / 1.96)


def test_a_ring_warmer_than_its_instrument_is_set_right(derived) -> None:
    """46 mm of steel, 3 K warmer: 46 * 11.5e-6 * 3 = 1.6 um larger than its certificate."""
    def mean(temperature: str) -> tuple[float, float]:
        ring = {**INSTRUMENT["ring"], "temperature": temperature}
        facts = derived(tools(*({"id": name, "kind": kind, **INSTRUMENT, "ring": ring} for name, kind in (
            ("mic", "three_point_micrometer"), ("two", "two_point_gauge"))))).sides["drive"].facts
        return facts["bore.mean_diameter"].value, facts["evidence.size_doubt"].value

    warm, even = mean("23.0 degC"), mean("20.0 degC")
    assert 1000 * (warm[0] - even[0]) == pytest.approx(46 * 11.5e-3 * 3, rel=0.06)


def test_the_bound_on_ovality_carries_the_doubt_of_plug_and_readings(derived) -> None:
    side = {**CASE["sides"]["drive"], "readings": [THREE_POINT], "gauges": [
        {"kind": "go", "size": {"value": "45.968 mm", "within": "1 um"}, "result": "enters_fully", "length": "12 mm"}]}
    bound = derived({"sides.drive": side}).sides["drive"].facts["evidence.ovality_bound"]
    assert bound.value == pytest.approx(2 * (45.9717 - 45.968) * 1000, abs=1.5)
    assert bound.high - bound.value == pytest.approx(2 * 1.96 * (4 / 3**0.5), rel=0.25)

from collections.abc import Callable
from typing import Any

import pytest

from recommender.deriving.derived import Derived
from recommender.facts.value import FactValue

Make = Callable[..., Derived]
GATE = 25.0


def _fact(found: Derived, fact: str) -> FactValue:
    return found.sides["drive"].facts[fact]


def _width(value: FactValue) -> float:
    assert value.high is not None
    assert value.low is not None
    return value.high - value.low


def _three_point_only(sound: dict[str, Any], **more: Any) -> dict[str, Any]:
    side = sound["sides"]["drive"]
    return {"sides.drive": {**side, "readings": side["readings"][:1], **more}}


def test_three_point_readings_alone_leave_ovality_open(derived: Make, sound: dict[str, Any]) -> None:
    alone, both = derived(_three_point_only(sound)), derived()
    oval = _fact(alone, "bore.ovality")
    assert oval.low is not None
    assert oval.high is not None
    assert oval.low < GATE < oval.high
    assert _fact(alone, "evidence.ovality_seen").word is False
    assert _fact(alone, "evidence.rests_on_assumption").word is True
    assert _fact(both, "evidence.ovality_seen").word is True
    assert _width(_fact(both, "bore.ovality")) < _width(oval) / 2
    assert _width(_fact(both, "bore.inscribed_diameter")) < _width(_fact(alone, "bore.inscribed_diameter"))


def test_a_go_plug_beside_three_point_readings_bounds_the_ovality(derived: Make, sound: dict[str, Any]) -> None:
    go = [{"kind": "go", "size": {"value": "45.966 mm", "within": "1 um"}, "result": "enters_fully"}]
    bounded, alone = derived(_three_point_only(sound, gauges=go)), derived(_three_point_only(sound))
    assert _fact(bounded, "evidence.ovality_bound").value == pytest.approx(2 * (45.972 - 45.966) * 1000, abs=2)
    assert _width(_fact(bounded, "bore.ovality")) < _width(_fact(alone, "bore.ovality"))
    assert _fact(bounded, "evidence.gauges_contradict").word is False


def test_a_go_plug_larger_than_the_readings_contradicts_them(derived: Make) -> None:
    go = [{"kind": "go", "size": "46.000 mm", "result": "enters_fully"}]
    assert _fact(derived({"sides.drive.gauges": go}), "evidence.gauges_contradict").word is True


def test_a_struck_reading_no_longer_counts_but_is_kept(derived: Make, sound: dict[str, Any]) -> None:
    side = sound["sides"]["drive"]
    three_point, two_point = side["readings"]
    slipped = {**three_point, "at": {**three_point["at"], "5": [45.972, 46.400, 45.972]}}
    struck = {**slipped, "struck": {"5": {"40": "slipped"}}}
    wrong = derived({"sides.drive": {**side, "readings": [slipped, two_point]}})
    right = derived({"sides.drive": {**side, "readings": [struck, two_point]}})
    probability = _fact(wrong, "evidence.fits_together").value
    assert probability is not None
    assert probability < 1e-6
    assert _fact(right, "evidence.readings").value == 14
    assert _fact(right, "bore.mean_diameter").value == pytest.approx(45.972, abs=0.001)
    assert any("struck: slipped" in each.shown for each in right.measured.values())


def test_readings_of_a_warm_aluminium_frame_are_brought_to_20_degrees(derived: Make, sound: dict[str, Any]) -> None:
    """46 mm, 11 K: aluminium grows 46 * 23.6e-6 * 11 = 12 um; the steel micrometer at 21 C gives 0.5 um back."""
    metal = {"frame.material": "aluminium"}
    instruments = [{**each, "temperature": "21 degC"} for each in sound["bench"]["instruments"]]
    warm = derived({**metal, "bench": {"frame_temperature": "31 degC", "instruments": instruments}})
    cool = derived(metal)
    moved = _value(cool, "bore.mean_diameter") - _value(warm, "bore.mean_diameter")
    assert moved * 1000 == pytest.approx(46 * (23.6e-3 * 11 - 11.7e-3 * 1), abs=0.2)
    assert warm.frame["evidence.temperature_off"].value == 11
    assert warm.frame["evidence.temperature_gap"].value == 10
    assert _width(_fact(warm, "bore.mean_diameter")) > _width(_fact(cool, "bore.mean_diameter"))


def test_a_reading_is_set_right_on_the_setting_ring(derived: Make, sound: dict[str, Any]) -> None:
    ring = {"size": "46.000 mm", "before": "46.004 mm", "after": "46.004 mm"}
    instruments = [{**each, "ring": ring} for each in sound["bench"]["instruments"]]
    moved = _value(derived(), "bore.mean_diameter") - _value(
        derived({"bench.instruments": instruments}), "bore.mean_diameter"
    )
    assert moved == pytest.approx(0.004, abs=2e-5)


def test_an_unknown_wall_or_unknown_openings_stay_unknown(derived: Make) -> None:
    found = derived({"frame.wall": None, "frame.openings": "unknown"})
    for fact in ("seat.wall", "seat.port_near", "seat.ligament_share", "seat.open_slot"):
        assert not _fact(found, fact).known, fact


def test_a_slot_at_an_unknown_distance_is_not_known_to_open_the_seat(derived: Make) -> None:
    slot = {"kind": "slot", "side": "drive"}
    assert not _fact(derived({"frame.openings": [slot]}), "seat.open_slot").known
    for distance, opens in (("2 mm", True), ("20 mm", False)):
        found = _fact(derived({"frame.openings": [{**slot, "seat_distance": distance}]}), "seat.open_slot")
        assert found.word is opens


def test_a_port_within_a_decay_length_of_the_seat_is_near(derived: Make) -> None:
    port = {"kind": "port", "side": "drive", "size": "8 mm", "ligament": "6 mm"}
    near = derived({"frame.openings": [{**port, "seat_distance": "2 mm"}]})
    far = derived({"frame.openings": [{**port, "seat_distance": "20 mm"}]})
    unsaid = derived({"frame.openings": [port]})
    assert _fact(near, "seat.port_near").word is True
    assert _fact(near, "seat.ligament_share").value == 0.75
    assert _fact(far, "seat.port_near").word is False
    assert not _fact(unsaid, "seat.port_near").known
    assert near.sides["non_drive"].facts["seat.port_near"].word is False


@pytest.mark.parametrize(
    ("distance", "near"),
    [
        ("6.3 mm", None), ("7.0 mm", None), ("6.1 mm", True), ("7.2 mm", False),
        ({"value": "7.0 mm", "within": "0.1 mm"}, False), ({"value": "6.3 mm", "within": "0.1 mm"}, True),
    ],
)  # fmt: skip
def test_an_opening_about_a_decay_length_away_is_near_or_not_only_as_closely_as_it_was_measured(
    distance: Any, near: bool | None, derived: Make
) -> None:
    # By hand: sqrt(r t) / (3 (1 - 0.3^2))^(1/4) of a 46 mm bore with a 3 mm wall is sqrt(24.5 x 3) / 1.285 = 6.67 mm.
    port = {"kind": "port", "side": "drive", "size": "8 mm", "ligament": "6 mm", "seat_distance": distance}
    assert _fact(derived({"frame.openings": [port]}), "seat.port_near").word is near


def _value(found: Derived, fact: str) -> float:
    value = _fact(found, fact).value
    assert value is not None
    return value

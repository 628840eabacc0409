from collections.abc import Callable
from typing import Any

import pytest

from recommender.deriving.derived import Derived, OptionFacts

Make = Callable[..., Derived]


def _options(found: Derived, remedy: str) -> list[OptionFacts]:
    return [each for each in found.sides["drive"].options if each.remedy == remedy]


def _number(option: OptionFacts, fact: str) -> float:
    value = option.facts[fact].value
    assert value is not None
    return value


def test_interference_is_part_minus_bore_at_mean_and_at_the_tightest_place(derived: Make) -> None:
    option = _options(derived(), "press_as_is")[0]
    side = derived().sides["drive"].facts
    assert _number(option, "fit.mean_interference") == pytest.approx((46.032 - 45.972) * 1000, abs=0.5)
    assert _number(option, "fit.tightest_interference") == pytest.approx(
        (46.032 - (side["bore.inscribed_diameter"].value or 0)) * 1000, abs=0.5
    )
    assert option.facts["fit.class"].word == "polymer_cup"
    assert option.facts["part.measured"].word is True


def test_a_generic_part_is_narrowed_to_the_diameters_that_would_do(derived: Make) -> None:
    generic = next(each for each in _options(derived(), "press_as_is") if each.part.startswith("aluminium"))
    assert generic.condition.startswith("if it measures between 46.00")
    assert generic.facts["part.measured"].word is False
    low, high = generic.facts["fit.mean_interference"].low, generic.facts["fit.tightest_interference"].high
    assert low is not None
    assert high is not None
    assert low >= 5.0
    assert high <= 80.0


def test_a_generic_part_that_would_not_do_at_any_size_keeps_its_whole_band(derived: Make) -> None:
    wide = {"instrument": "mic", "unit": "mm", "turns": [0, 40, 80], "at": {"2": [46.2] * 3, "8": [46.2] * 3}}
    found = derived({"sides.drive.readings": [wide]})
    generic = next(each for each in _options(found, "press_as_is") if "to be chosen" in each.part)
    assert generic.condition == ""
    high = generic.facts["fit.mean_interference"].high
    assert high is not None
    assert high < 0


def test_a_part_with_neither_measure_nor_band_is_unknown(derived: Make) -> None:
    found = derived({"frame.standard": "bb86", "frame.shell_width": "86.5 mm", "parts": []})
    for option in _options(found, "press_as_is"):
        assert not option.facts["fit.mean_interference"].known


def test_a_cup_measured_without_its_bearing_has_no_known_diameter(derived: Make) -> None:
    for fitted, known in (("fitted", True), ("not_fitted", False)):
        cup = {"part": "polymer_cup_46", "side": "drive", "od": "46.032 mm", "bearing_fitted": fitted}
        first = _options(derived({"parts": [cup]}), "press_as_is")[0]
        measured = first.facts["part.measured"].word
        assert measured is known


def test_a_turned_cup_aims_at_the_middle_of_its_class_and_says_how_it_differs(derived: Make) -> None:
    """Aluminium cup in carbon, aim 10 to 50 um: target 45.972 + 0.030, against a cup in hand of 46.032 mm."""
    option = _options(derived(), "undersize_cup")[0]
    assert option.make is not None
    assert option.make.od is not None
    assert sum(option.make.od) / 2 == pytest.approx(45.972 + 0.030, abs=0.0015)
    assert option.make.od[1] - option.make.od[0] == pytest.approx(0.010)
    assert _number(option, "make.change") == pytest.approx(-30, abs=1.5)
    assert _number(option, "make.cup_wall") == pytest.approx((option.make.od[0] - 42.0) / 2)


def test_a_stepped_cup_follows_the_taper_with_its_lands(derived: Make) -> None:
    tapered = {
        "instrument": "mic",
        "unit": "mm",
        "turns": [0, 40, 80],
        "at": {"2": [46.062] * 3, "8": [46.023] * 3, "14": [45.984] * 3},
    }
    across = {**tapered, "instrument": "two", "turns": [0, 60, 120]}
    found = derived({"sides.drive.readings": [tapered, across], "sides.drive.seat_depth": "16 mm"})
    option = _options(found, "stepped_cup")[0]
    assert option.make is not None
    outer, inner = option.make.lands
    assert (outer.start, inner.end) == pytest.approx((0.0, 16.0))
    assert sum(outer.od) / 2 - sum(inner.od) / 2 == pytest.approx(_number(option, "make.step") / 1000, abs=1e-4)
    assert _number(option, "make.step") == pytest.approx(6.5 * (inner.start - outer.start), abs=2.0)


METAL: dict[str, Any] = {"frame.material": "aluminium", "frame.wall": "3.20 mm"}


def test_a_sleeve_carries_the_part_and_leaves_the_wall_that_is_left(derived: Make) -> None:
    """46.21 mm oval bore, wall 3.20: ream, sleeve and wall left follow from each other by plain subtraction."""
    wide = {"instrument": "mic", "unit": "mm", "turns": [0, 40, 80], "at": {"2": [46.21] * 3, "8": [46.21] * 3}}
    found = derived({**METAL, "sides.drive.readings": [wide]})
    option = _options(found, "sleeve")[0]
    make = option.make
    assert make is not None
    assert make.bore is not None
    assert make.sleeve is not None
    bore, outside, inside = (sum(band) / 2 for band in (make.bore, make.sleeve["od_mm"], make.sleeve["id_mm"]))
    assert make.wall_left == pytest.approx(3.20 - (bore - 46.21) / 2, abs=0.002)
    assert _number(option, "sleeve.wall") == pytest.approx((outside - inside) / 2, abs=1e-4)
    assert _number(option, "sleeve.bond_line") == pytest.approx((bore - outside) / 2, abs=1e-4)
    assert _number(option, "cut.wall_left") == pytest.approx(make.wall_left, abs=0.01)


def test_an_unknown_wall_leaves_the_wall_after_cutting_unknown(derived: Make) -> None:
    found = derived({"frame.material": "aluminium", "frame.wall": None})
    for remedy in ("ream", "sleeve"):
        assert not _options(found, remedy)[0].facts["cut.wall_left"].known


def test_a_reamed_bore_is_round_and_fits_the_part_by_its_aim(derived: Make) -> None:
    option = _options(derived(METAL), "ream")[0]
    mean, tight = option.facts["fit.mean_interference"], option.facts["fit.tightest_interference"]
    assert mean.value == tight.value
    assert _number(option, "cut.bore") == pytest.approx(46.032 - 0.055, abs=1e-3)


def test_a_direct_seat_has_no_cup_to_turn(derived: Make) -> None:
    found = derived({"frame.standard": "bb30", "parts": []})
    assert {each.remedy for each in found.sides["drive"].options} == {
        "press_as_is",
        "press_with_compound",
        "ream",
        "sleeve",
    }


def test_steel_in_aluminium_loosens_in_the_heat_and_holds_in_the_cold(derived: Make) -> None:
    near = {"instrument": "mic", "unit": "mm", "turns": [0, 40, 80], "at": {"2": [41.97] * 3, "6": [41.97] * 3}}
    part = [{"part": "bearing_6806", "od": "41.995 mm"}]
    found = derived(
        {
            **METAL,
            "frame.standard": "bb30",
            "parts": part,
            "sides.drive.readings": [near],
            "sides.drive.seat_depth": "8 mm",
        }
    )
    option = _options(found, "press_as_is")[0]
    cold, warm, hot = (_number(option, fact) for fact in ("fit.cold_pressure", "fit.pressure", "fit.hot_pressure"))
    assert cold > warm > hot


def test_an_opening_beside_the_seat_multiplies_the_strain(derived: Make) -> None:
    port = {"kind": "port", "side": "drive", "size": "8 mm", "ligament": "6 mm", "seat_distance": "0 mm"}
    plain = _options(derived(), "press_as_is")[0]
    ported = _options(derived({"frame.openings": [port], "damage.looked_at.port_edge": "lamp"}), "press_as_is")[0]
    assert _number(ported, "strain.tension") > 2 * _number(plain, "strain.tension")
    unsaid = _options(derived({"frame.openings": "unknown"}), "press_as_is")[0].facts["strain.tension"]
    assert unsaid.low is not None
    assert unsaid.high is not None
    assert unsaid.low < _number(plain, "strain.tension") * 1.5
    assert unsaid.high > 2 * _number(plain, "strain.tension")

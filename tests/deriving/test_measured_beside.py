"""What was measured on a part beside its diameter, and what the last pressing, the lay-up and an insert bring in."""

from collections.abc import Callable
from math import pi
from typing import Any

import pytest

from recommender.bench.load import LoadedCase
from recommender.deriving.derived import Derived, OptionFacts
from recommender.facts.value import FactValue
from recommender.ground.flaw import Flawed
from recommender.rulebook.book import Rulebook

Make = Callable[..., Derived]
CUP = {"part": "aluminium_cup_46", "od": "46.010 mm", "bearing_fitted": "fitted"}
LAMINA = {
    "along": "181 GPa", "across": "10.3 GPa", "shear": "7.17 GPa", "poisson": 0.28,
    "expansion_along": "0.02 ppm/K", "expansion_across": "22.5 ppm/K",
}  # fmt: skip
EVEN = [{"angle": f"{angle} deg", "share": "25 %"} for angle in (0, 45, 90, -45)]


def _option(found: Derived, remedy: str = "press_as_is") -> OptionFacts:
    return next(each for each in found.sides["drive"].options if each.remedy == remedy)


def _number(value: FactValue) -> float:
    assert value.value is not None, value.why_unknown
    return value.value


def _fact(derived: Make, fact: str, part: dict[str, Any], **more: Any) -> float:
    return _number(_option(derived({"parts": [part], **more})).facts[fact])


def test_a_shorter_part_holds_less_along_the_axis(derived: Make) -> None:
    assert _fact(derived, "grip.axial", {**CUP, "length": "6 mm"}) < 0.8 * _fact(derived, "grip.axial", CUP)


def test_a_part_out_of_round_is_tighter_at_its_tightest_and_looser_at_its_widest(derived: Make) -> None:
    """Half of 10 um on either side of the mean."""
    oval = {**CUP, "od_spread": "10 um"}
    for fact, by in (("fit.tightest_interference", 5.0), ("fit.loosest_interference", -5.0)):
        assert _fact(derived, fact, oval) - _fact(derived, fact, CUP) == pytest.approx(by, abs=0.02)
    assert _fact(derived, "fit.mean_interference", oval) == _fact(derived, "fit.mean_interference", CUP)
    assert _fact(derived, "bearing.clearance_left", oval) < _fact(derived, "bearing.clearance_left", CUP)


def test_a_tight_seat_takes_clearance_and_a_loose_one_takes_none(derived: Make) -> None:
    left = [
        _fact(derived, "bearing.clearance_left", {**CUP, "seat": {"value": seat, "within": "1 um"}})
        for seat in ("41.960 mm", "42.020 mm", "42.040 mm")
    ]
    assert left[0] < left[1] - 5
    assert left[1] == pytest.approx(left[2], abs=0.01)


def test_another_bearing_in_the_cup_is_the_one_judged(derived: Make) -> None:
    """A 25 mm bearing instead of a 30 mm one leaves that much less room for a 24 mm spindle."""
    frame = {"frame.spindle": "24 mm"}
    other = {**CUP, "bearing": {"part": "bearing_6805"}}
    assert _fact(derived, "part.spindle_room", CUP, **frame) == 6.0
    assert _fact(derived, "part.spindle_room", other, **frame) == 1.0
    assert _option(derived({"parts": [other]})).bearing == "6805"


def test_rocking_adds_to_the_misalignment_of_the_bearing(derived: Make) -> None:
    line = {"offset": "0.02 mm", "angle": "2 arcmin", "method": "bar"}
    straight = _option(derived({"parts": [CUP], "alignment": line})).facts
    angle = _number(derived({"alignment": line}).frame["alignment.angle"])
    assert _number(straight["bearing.misalignment"]) == pytest.approx(angle + _number(straight["fit.rocking"]))
    taper = {
        "instrument": "mic", "unit": "mm", "turns": [0, 40, 80],
        "at": {"2": [46.002] * 3, "5": [46.042] * 3, "8": [46.082] * 3},
    }  # fmt: skip
    rocks = _option(derived({"parts": [CUP], "alignment": line, "sides.drive.readings": [taper]})).facts
    assert _number(rocks["fit.rocking"]) > 2
    assert _number(rocks["bearing.misalignment"]) == pytest.approx(angle + _number(rocks["fit.rocking"]), abs=1e-3)


def test_rating_is_told_with_the_bearing(derived: Make) -> None:
    """6806: 4.0 and 3.2 kN in a general catalogue; ratings from the balls lie within two per cent."""
    facts = _option(derived({"parts": [CUP]})).facts
    ratings = [_number(facts[f"bearing.{each}_rating"]) for each in ("dynamic", "static")]
    assert ratings == pytest.approx([4000, 3200], rel=0.02)
    assert _number(facts["bearing.life"]) == pytest.approx((ratings[0] / 900) ** 3 * 1e6 / 60 / 90)


def test_a_compound_is_named_by_the_gap_it_bridges(derived: Make, book: Rulebook) -> None:
    loose = _option(derived({"parts": [{**CUP, "od": "45.945 mm"}]}), "press_with_compound")
    assert loose.make is not None
    assert loose.make.compound is not None
    assert loose.facts["compound.class"].word == loose.make.compound.id == "fine"
    assert loose.make.compound.activator_on == ("carbon",)
    wide = _option(derived({"parts": [{**CUP, "od": "45.890 mm"}]}), "press_with_compound")
    assert wide.facts["compound.class"].word == "medium"
    assert wide.facts["compound.fills"].word is True
    too_wide = _option(derived({"parts": [{**CUP, "od": "45.800 mm"}]}), "press_with_compound")
    assert too_wide.facts["compound.fills"].word is False
    assert book.compounds["medium"].cure == 72


def test_a_press_force_bounds_the_interference(derived: Make, book: Rulebook) -> None:
    """2 kN on a 46 mm seat 10 mm long, friction 0.06 to 0.30: 4.6 to 23 MPa, over the stack's stiffness."""
    cups = [{"material": "aluminium", "od": "46.200 mm", "fitted": 1}]
    side = derived({"history.cups": cups, "sides.drive.press": {"force": "2 kN"}}).sides["drive"].facts
    most, least = _number(side["grip.allowed_most"]), _number(side["grip.allowed_least"])
    pressures = [2000 / (friction * pi * 45.972 * 10) for friction in (0.30, 0.06)]
    assert pressures == pytest.approx([4.6, 23.1], abs=0.1)
    loss = book.limits["roughness.loss"].value
    assert 30 < pressures[0] / (least / 1000) < 250
    assert 30 < pressures[1] / ((most - loss) / 1000) < 250
    past = _number(side["cause.tightest_past_fit"])
    assert _number(side["grip.sizes_over_force"]) == pytest.approx(past - most, abs=0.02)
    assert _number(side["grip.force_over_sizes"]) == pytest.approx(least - past, abs=0.02)


def test_going_in_without_resistance_bounds_it_from_above_only(derived: Make) -> None:
    side = derived({"sides.drive.press": {"feel": "no_resistance"}}).sides["drive"].facts
    assert _number(side["grip.allowed_most"]) > 0
    assert not side["grip.allowed_least"].known
    assert not derived().sides["drive"].facts["grip.allowed_most"].known


def test_a_known_lay_up_narrows_the_pressure(derived: Make) -> None:
    """Quasi-isotropic T300/5208: 69.68 GPa (laminate theory, a textbook's value from memory 69.7)."""
    layup = {"frame.layup": {"lamina": LAMINA, "plies": EVEN}}
    wide = _option(derived({"parts": [CUP]})).facts["fit.pressure"]
    told = _option(derived({"parts": [CUP], **layup})).facts["fit.pressure"]
    assert wide.high is not None
    assert wide.low is not None
    assert told.high is not None
    assert told.low is not None
    assert told.high - told.low < 0.8 * (wide.high - wide.low)
    assert _number(told) > _number(wide)


ONE_SIDED = [{"angle": "0 deg", "share": "50 %"}, {"angle": "45 deg", "share": "50 %"}]


@pytest.mark.parametrize(("plies", "wrong"), [(EVEN[:3], "add up to 75 %"), (ONE_SIDED, "-45")])
def test_a_lay_up_that_cannot_be_is_refused(
    case_with: Callable[..., LoadedCase], plies: list[dict[str, str]], wrong: str
) -> None:
    with pytest.raises(Flawed, match=wrong):
        case_with({"frame.layup": {"lamina": LAMINA, "plies": plies}})


def test_laminate_behind_an_insert_is_strained_less_than_the_insert_and_has_its_limit(derived: Make) -> None:
    bonded = {"frame.insert": "bonded", "frame.insert_wall": "2 mm"}
    found = _option(derived({"parts": [{**CUP, "od": "46.000 mm"}], **bonded}))
    assert 0 < _number(found.facts["strain.behind_insert"]) < _number(found.facts["strain.tension"])
    assert not _option(derived({"parts": [CUP]})).facts["strain.behind_insert"].known

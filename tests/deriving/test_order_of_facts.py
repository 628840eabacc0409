"""Facts keep the order the mechanics has: what makes a fit worse never shows as better."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from recommender.deriving.derived import Derived, OptionFacts

Derive = Callable[..., Derived]
METAL: dict[str, Any] = {"frame.material": "aluminium"}


def read(size: float, oval: float = 0.0) -> list[dict[str, Any]]:
    """Return readings of a round or oval bore: three-point at the mean, two-point over the oval."""
    three = {"instrument": "mic", "unit": "mm", "turns": [0, 40, 80], "at": {"2": [size] * 3, "8": [size] * 3}}
    across = [size + oval / 2, size - oval / 4, size - oval / 4]
    two = {"instrument": "two", "unit": "mm", "turns": [0, 60, 120], "at": {"2": across, "8": across}}
    return [three, two]


def option(found: Derived, remedy: str = "press_as_is") -> OptionFacts:
    return next(each for each in found.sides["drive"].options if each.remedy == remedy)


def number(found: Derived, fact: str, remedy: str = "press_as_is") -> float:
    value = option(found, remedy).facts[fact].value
    assert value is not None
    return value


@pytest.mark.parametrize("fact", ["strain.tension", "fit.pressure", "grip.axial", "bearing.ring_stress"])
def test_a_larger_bore_never_raises_strain_or_grip(derived: Derive, fact: str) -> None:
    found = [number(derived({"sides.drive.readings": read(size)}), fact) for size in (45.95, 45.97, 45.99, 46.01)]
    assert found == sorted(found, reverse=True)


def test_more_ovality_never_raises_the_clearance_left(derived: Derive) -> None:
    cases = [derived({"sides.drive.readings": read(45.972, oval)}) for oval in (0.0, 0.01, 0.02, 0.04)]
    found = [number(each, "bearing.clearance_left") for each in cases]
    assert found == sorted(found, reverse=True)


def test_a_thinner_wall_never_raises_the_diameter_that_strain_allows(derived: Derive) -> None:
    port = {"kind": "port", "side": "drive", "size": "8 mm", "ligament": "6 mm", "seat_distance": "0 mm"}
    more = {"frame.openings": [port], "damage.looked_at.port_edge": "lamp"}
    found = [derived({**more, "frame.wall": f"{wall} mm"}) for wall in (2.0, 3.0, 4.0)]
    strains = [number(each, "strain.tension") for each in found]
    assert strains == sorted(strains, reverse=True)


def test_a_port_never_widens_the_window_and_a_nearer_one_never_strains_less(derived: Derive) -> None:
    def ported(distance: float) -> Derived:
        port = {"kind": "port", "side": "drive", "size": "8 mm", "ligament": "6 mm", "seat_distance": f"{distance} mm"}
        return derived({"frame.openings": [port], "damage.looked_at.port_edge": "lamp"})

    cases = [derived(), *(ported(distance) for distance in (20.0, 10.0, 5.0, 0.0))]
    windows = [each.make.window for each in (option(found, "oversize_cup") for found in cases) if each.make]
    widths = [window[1] - window[0] for window in windows if window]
    assert len(widths) == len(cases)
    assert all(after <= before + 1e-9 for before, after in pairwise(widths))
    strains = [number(found, "strain.tension") for found in cases]
    assert strains == sorted(strains)


def test_compression_stands_beside_tension_where_an_opening_is(derived: Derive) -> None:
    port = {"kind": "port", "side": "drive", "size": "8 mm", "ligament": "6 mm", "seat_distance": "0 mm"}
    found = derived({"frame.openings": [port], "damage.looked_at.port_edge": "lamp"})
    facts = found.sides["drive"].facts
    tension, compression = (facts[f"opening.{sign}_factor"].value for sign in ("tension", "compression"))
    assert (tension, compression) == (pytest.approx(3.6), pytest.approx(1.4))
    assert number(found, "strain.compression") > 0.3 * number(found, "strain.tension")
    assert number(derived(), "strain.compression") < 0.1 * number(derived(), "strain.tension")


def test_a_polymer_part_creeps_and_a_recess_leaves_less_hold(derived: Derive) -> None:
    found = derived()
    share = number(found, "fit.long_term_pressure") / number(found, "fit.pressure")
    assert 0.5 <= share <= 0.8
    recess = {"kind": "recess", "side": "drive", "size": "8 mm", "wall_left": "1.5 mm", "seat_distance": "0 mm"}
    assert number(derived({"frame.openings": [recess]}), "fit.long_term_pressure") < number(
        found, "fit.long_term_pressure"
    )


def test_the_class_to_order_leaves_less_outside_what_is_wanted_than_any_other(derived: Derive) -> None:
    classes = option(derived()).classes
    assert [each.outside for each in classes] == sorted(each.outside for each in classes)
    assert option(derived()).facts["bearing.class"].word == classes[0].name


def test_a_force_of_the_last_pressing_speaks_of_a_pressure(derived: Derive) -> None:
    """1300 N over 46 x 10 mm: 3.3 MPa at the friction of a dry polymer, 14 MPa greased."""
    found = derived({"sides.drive.press": {"force": "1300 N"}}).sides["drive"].facts["grip.pressed_with"]
    assert found.low is not None
    assert found.high is not None
    assert found.low < 3.3 < found.high


@pytest.mark.parametrize(("material", "colder_is"), [("aluminium", "tighter"), ("carbon", "looser")])
def test_cold_tightens_a_steel_ring_in_aluminium_and_loosens_it_in_carbon(
    derived: Derive, material: str, colder_is: str
) -> None:
    seat = {
        "frame.material": material, "frame.standard": "bb30", "sides.drive.readings": read(41.97),
        "parts": [{"part": "bearing_6806", "side": "drive", "od": "41.995 mm"}],
    }  # fmt: skip
    found = derived(seat)
    cold, now, hot = (number(found, f"fit.{each}") for each in ("cold_pressure", "pressure", "hot_pressure"))
    assert (cold > now > hot) if colder_is == "tighter" else (cold < now < hot)

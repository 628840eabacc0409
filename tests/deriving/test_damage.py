from collections.abc import Callable
from typing import Any

import pytest

from recommender.deriving.derived import Derived

Make = Callable[..., Derived]
LOOKED = {"bore": "lamp", "lip": "eye", "shell_outside": "tap", "joint": "eye"}


def _damage(looked: dict[str, Any], *signs: dict[str, Any]) -> dict[str, Any]:
    return {"damage": {"looked_at": looked, "signs": list(signs)}}


def test_no_sign_counts_only_where_every_place_was_looked_at(derived: Make) -> None:
    whole = derived()
    part = derived(_damage({"bore": "lamp", "lip": "eye", "shell_outside": "tap"}))
    assert whole.frame["damage.crack"].word is False
    assert not part.frame["damage.crack"].known
    assert "joint" in part.frame["damage.crack"].why_unknown
    assert part.frame["damage.places_unseen"].value == 1


def test_a_place_looked_at_in_an_unknown_way_was_not_looked_at(derived: Make) -> None:
    assert derived(_damage({**LOOKED, "joint": "unknown"})).frame["damage.places_unseen"].value == 1


def test_a_crack_counts_however_little_else_was_looked_at(derived: Make) -> None:
    found = derived(_damage({}, {"sign": "crack", "where": "lip", "side": "drive"}))
    assert found.frame["damage.crack"].word is True
    assert found.crack_seen


@pytest.mark.parametrize(
    ("frame", "places"),
    [
        ({"frame.material": "aluminium"}, 0),
        ({"frame.material": "unknown"}, 0),
        ({"frame.material": "unknown", "damage.looked_at": {"bore": "lamp", "lip": "eye", "shell_outside": "tap"}}, 1),
        (
            {"frame.material": "aluminium", "damage.looked_at": {"bore": "lamp", "lip": "eye", "shell_outside": "tap"}},
            0,
        ),
        ({"frame.insert": "bonded"}, 1),
        ({"frame.insert": "unknown"}, 1),
        ({"frame.openings": "unknown"}, 1),
        ({"frame.openings": [{"kind": "port"}]}, 1),
    ],
)
def test_a_frame_has_the_places_that_are_not_known_to_be_absent(
    derived: Make, frame: dict[str, Any], places: int
) -> None:
    assert derived(frame).frame["damage.places_unseen"].value == places


def test_a_sign_of_one_side_does_not_speak_of_the_other(derived: Make) -> None:
    found = derived(_damage(LOOKED, {"sign": "polished_band", "where": "bore", "side": "drive"}))
    assert found.sides["drive"].facts["damage.polished_band"].word is True
    assert found.sides["non_drive"].facts["damage.polished_band"].word is False


def test_corrosion_at_the_edge_of_an_insert_is_corrosion_at_a_bond(derived: Make) -> None:
    powder = {"sign": "white_powder", "where": "insert_edge"}
    insert = {"frame.insert": "bonded"}
    assert derived({**insert, **_damage(LOOKED, powder)}).frame["damage.bond_corrosion"].word is True
    assert derived(_damage(LOOKED, {**powder, "where": "shell_outside"})).frame["damage.bond_corrosion"].word is False


def test_powder_at_a_joint_of_a_carbon_frame_shows_that_metal_is_bonded_in(derived: Make) -> None:
    at_joint = _damage(LOOKED, {"sign": "white_powder", "where": "joint"})
    assert derived({"frame.insert": "none", **at_joint}).frame["damage.bond_corrosion"].word is True
    welded = {"frame.insert": "none", "frame.material": "aluminium", **at_joint}
    assert derived(welded).frame["damage.bond_corrosion"].word is False

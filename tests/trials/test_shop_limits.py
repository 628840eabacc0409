"""What a shop can make, ream and glue removes remedies: its limits in a house folder, tried on shipped cases."""

from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.rulebook.load import load

CASES = Path(__file__).resolve().parents[2] / "cases"
SIGNED = "reason: what this shop has, by: workshop lead, dated: 2026-01-05, review_by: 2028-01-05"
Houses = Callable[[str, str, str], Path]


@pytest.fixture
def house(tmp_path: Path) -> Houses:
    def make(limit: str, was: str, to: str) -> Path:
        text = f"house:\n  - {{change: {limit}, to: {to}, was: {was}, {SIGNED}}}\n"
        (tmp_path / "shop.yaml").write_text(text, encoding="utf-8")
        return tmp_path

    return make


@pytest.mark.parametrize(
    ("limit", "was", "to", "rule", "case", "side", "remedy"),
    [
        ("shop.largest_reamer", "55 mm", "45 mm", "shop.no-reamer-that-large", "proceed/orchard-2052", "drive", "ream"),
        ("compound.widest_gap", "100 um", "-1000 um", "compound.gap-too-wide", "proceed/ginger-2192", "drive",
         "press_with_compound"),
        ("turning.tolerance", "5 um", "60 um", "turned-cup.no-window", "proceed/mill-2027", "drive", "stepped_cup"),
        ("sleeve.least_wall", "1 mm", "1.2 mm", "sleeve.wall-too-thin", "proceed/forge-2033", "non_drive", "sleeve"),
        ("sleeve.bond_line_least", "0.05 mm", "0.12 mm", "sleeve.bond-line-out-of-range", "proceed/forge-2033",
         "non_drive", "sleeve"),
        ("sleeve.bond_line_aim", "0.1 mm", "0.2 mm", "sleeve.bond-line-out-of-range", "proceed/forge-2033",
         "non_drive", "sleeve"),
        ("bond.design_strength", "5 MPa", "0.5 MPa", "bond.too-weak", "proceed/forge-2033", "non_drive", "sleeve"),
        ("bond.peel_most", "5 MPa", "0.05 MPa", "bond.peels-in-the-cold", "proceed/holly-2172", "drive", "sleeve"),
    ],
)
def test_what_a_shop_cannot_do_is_ruled_out(
    house: Houses, limit: str, was: str, to: str, rule: str, case: str, side: str, remedy: str
) -> None:
    loaded = load_case(CASES / f"{case}.yaml")
    on = loaded.case.received
    before, after = advise(loaded, load(on=on)), advise(loaded, load(house=house(limit, was, to), on=on))
    sides = {str(name): each for name, each in after.sides.items()}
    found = next(each for each in sides[side].remedies if each.id == remedy)
    assert found.outcome == "ruled_out"
    barring = {each.rule for option in found.options for each in option.findings if each.counts_as == "bars"}
    assert rule in barring
    assert rule not in {each.rule for shown in before.sides[side].remedies if shown.id == remedy
                        for option in shown.options for each in option.findings if each.counts_as == "bars"}
    assert after.sides[side].verdict != remedy
    assert [each["id"] for each in after.house_changes] == [limit]

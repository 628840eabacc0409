"""Grids of the shipped rules, and what a house may do to them."""

from datetime import date
from pathlib import Path

import pytest

from recommender.ground.flaw import Flawed
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

SIGNED = "reason: a, by: b, dated: 2026-01-01, review_by: 2027-01-01"
ROWS = """
        - {at: {part.material: polymer}, gives: not_at_all}
        - {at: {part.material: [aluminium, steel]}, gives: with_activator}
"""


def replaced(answers: str = "compound.cures", grid: str = "compound.cures", rows: str = ROWS) -> str:
    return f"""
house:
  - replace: {grid}
    reason: our compound always wants its activator
    by: workshop lead
    dated: 2026-01-01
    review_by: 2027-01-01
    grid:
      title: Ours
      answers: {answers}
      inputs: [part.material, frame.bore_material]
      rows:{rows}
      source: {{kind: shop}}
      examples:
        - {{name: polymer, facts: {{part.material: polymer}}, expect: not_at_all}}
        - {{name: metal, facts: {{part.material: steel}}, expect: with_activator}}
"""


def house(tmp_path: Path, text: str, on: date | None = None) -> Rulebook:
    (tmp_path / "a.yaml").write_text(text)
    return load(tmp_path, on=on)


def flaws(tmp_path: Path, text: str) -> list[tuple[str, int]]:
    with pytest.raises(Flawed) as refused:
        house(tmp_path, text)
    return [(each.check, each.place.line) for each in refused.value.flaws]


def test_the_shipped_grids_answer_what_they_are_for() -> None:
    assert {grid.answers for grid in load().grids.values()} == {
        "frame.bearing", "bearing.class_advice", "compound.cures"
    }  # fmt: skip


def test_every_listed_bearing_goes_over_the_spindle_it_is_named_for() -> None:
    """The bore of the bearing named in a row is the one its range ends at, and the shell lists a part with it."""
    book = load()
    grid = book.grids["spindle.bearing"]
    for row in grid.table.rows:
        if row.answer == "none_listed":
            continue
        band, standards = row.parts[1], row.parts[0]
        end = band.end  # type: ignore[union-attr]
        assert 0 < float(end.value) - book.bearings[row.answer].inner < 0.1  # type: ignore[union-attr]
        for standard in standards.words:  # type: ignore[union-attr]
            parts = (book.parts[each] for each in book.standards[str(standard)].parts)
            assert row.answer in {part.bearing for part in parts}, standard


def test_a_house_replaces_a_grid_and_signs_for_it(tmp_path: Path) -> None:
    book = house(tmp_path, replaced())
    assert book.grids["compound.cures"].title == "Ours"
    assert book.grids["compound.cures"].layer == "house"
    [change] = book.house_changes
    assert (change.kind, change.id, change.after, change.looser) == ("replace", "compound.cures", "Ours", True)
    assert book.fingerprint != load().fingerprint


def test_a_replaced_grid_is_void_after_its_review(tmp_path: Path) -> None:
    book = house(tmp_path, replaced(), date(2027, 1, 2))
    assert book.grids == load().grids
    assert [each.id for each in book.house_void] == ["compound.cures"]


def test_a_moved_limit_moves_the_rows_that_end_at_it(tmp_path: Path) -> None:
    text = f"house: [{{change: compound.widest_gap, to: 60 um, was: 100 um, {SIGNED}}}]"
    rows = house(tmp_path, text).grids["compound.cures"].table.rows
    assert {part.span[0] for row in rows for part in row.parts if hasattr(part, "span")} >= {60.0}


def test_a_grid_of_the_house_gives_words_that_its_rules_ask(tmp_path: Path) -> None:
    text = f"""
grids:
  house.oval-bores:
    title: Which bores the lead looks at
    answers: shop.side_class
    inputs: [side.name, bore.ovality]
    rows:
      - {{at: {{side.name: drive, bore.ovality: {{from: form.ovality_gate}}}}, gives: lead_looks}}
      - {{at: {{side.name: drive, bore.ovality: {{to: form.ovality_gate}}}}, gives: bench}}
      - {{at: {{side.name: non_drive}}, gives: bench}}
    source: {{kind: shop}}
    added: {{{SIGNED}}}
    examples:
      - {{name: oval, facts: {{side.name: drive, bore.ovality: 500 um}}, expect: lead_looks}}
      - {{name: round, facts: {{side.name: drive, bore.ovality: 1 um}}, expect: bench}}
      - {{name: other side, facts: {{side.name: non_drive}}, expect: bench}}
rules:
  - id: house.lead-looks
    title: The lead looks at it
    about: side
    holds_if: {{fact: shop.side_class, equals: lead_looks}}
    finding: {{stance: advises_against}}
    because: "This one is for: {{shop.side_class}}."
    source: {{kind: shop}}
    added: {{{SIGNED}}}
    examples:
      - {{name: so, facts: {{shop.side_class: lead_looks}}, expect: holds}}
      - {{name: not so, facts: {{shop.side_class: bench}}, expect: fails}}
"""
    book = house(tmp_path, text)
    assert book.grids["house.oval-bores"].words == ("lead_looks", "bench")
    assert [each.kind for each in book.house_changes] == ["add", "add"]
    # Without the grid the rule's words mean nothing.
    alone = text[text.index("rules:") :]
    assert ("rules.unanswered-fact", 5) in flaws(tmp_path, alone)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (replaced(answers="shop.option_class"), ("rules.house-replace", 10)),
        (replaced(grid="compound.hardens"), ("rules.house-unknown", 3)),
        (f"house: [{{withdraw: compound.cures, {SIGNED}}}]", ("rules.house-unknown", 1)),
        (replaced(rows="\n        - {at: {part.material: polymer}, gives: not_at_all}"), ("rules.grid-gap", 12)),
        (replaced(rows=f"{ROWS}        - {{at: {{part.material: steel}}, gives: alone}}"), ("rules.grid-overlap", 15)),
    ],
)
def test_what_a_house_may_not_do_to_a_grid(tmp_path: Path, text: str, found: tuple[str, int]) -> None:
    assert found in flaws(tmp_path, text)

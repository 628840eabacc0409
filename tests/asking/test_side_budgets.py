"""Budgets of the sides of a case, and what each instrument can decide there."""

import pytest

from recommender.asking.side_budgets import ASSUMED_DEGREES, side_budgets

CALLIPER = "      - {instrument: cal, unit: mm, loose: [45.98]}\n"


def test_every_source_has_its_line(case_with, book) -> None:
    found = side_budgets(case_with(), book)
    assert set(found) == {"drive", "non_drive"}
    lines = {(each.name, each.instrument) for each in found["drive"].budget.lines}
    for instrument in ("mic", "two"):
        assert {("repeatability", instrument), ("resolution", instrument), ("error limit", instrument),
                ("setting ring", instrument)} <= lines
    assert ("temperature", "") in lines
    assert ("drift on the setting ring", "mic") in lines
    assert found["drive"].budget.degrees > ASSUMED_DEGREES
    assert found["drive"].budget.expanded == pytest.approx(
        found["drive"].budget.factor * found["drive"].budget.u)


def test_two_instruments_decide_more_than_one(case_with, book) -> None:
    found = side_budgets(case_with(), book)["drive"]
    assert found.together is not None
    assert set(found.by_instrument) == {"mic", "two"}
    assert found.together.ratio > max(each.ratio for each in found.by_instrument.values())
    assert all(each.decides for each in found.by_instrument.values())


def test_a_side_not_read_has_no_budget(case_with, book) -> None:
    loaded = case_with()
    side = loaded.case.sides.drive.model_copy(update={"readings": (), "reason": "cracked"})
    sides = loaded.case.sides.model_copy(update={"drive": side})
    bare = loaded._replace(case=loaded.case.model_copy(update={"sides": sides}))
    assert set(side_budgets(bare, book)) == {"non_drive"}


def test_a_calliper_cannot_decide_a_narrow_band(case_with, book) -> None:
    loaded = case_with(CALLIPER.replace("cal,", "two,"))
    calliper = loaded.case.bench.instruments[1].model_copy(
        update={"kind": "calliper", "error_limit": None, "resolution": None})
    bench = loaded.case.bench.model_copy(update={"instruments": (loaded.case.bench.instruments[0], calliper)})
    frame = loaded.case.frame.model_copy(update={"standard": "bb30"})
    made = loaded._replace(case=loaded.case.model_copy(update={"bench": bench, "frame": frame}))
    capability = side_budgets(made, book)["drive"].by_instrument["two"]
    assert capability.ratio < 0.5
    assert not capability.decides

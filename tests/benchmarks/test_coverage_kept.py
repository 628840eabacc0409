"""The coverage study in a small form, and the kept table against what is promised."""

import json
import runpy
from pathlib import Path

import numpy as np
import pytest

STUDY = runpy.run_path(str(Path(__file__).with_name("coverage.py")), run_name="coverage")
KEPT = json.loads(STUDY["KEPT"].read_text("utf-8"))
FEW = 100
WIDER = 1.15
SHARES = [
    pytest.param(title, plan, field, each["held"], id=f"{title}-{plan}-{field}")
    for title, part in KEPT.items() for plan, by_field in part.items() for field, each in by_field.items()
]


@pytest.mark.parametrize(("title", "plan", "field", "held"), SHARES)
def test_the_kept_table_meets_what_is_promised(title: str, plan: str, field: str, held: float) -> None:
    assert held >= (STUDY["LEAST"] if title == "as assumed" else STUDY["LEAST_WORSE"])
    if STUDY["PLANS"][plan].turns_recorded:
        assert held <= STUDY["MOST"]


def test_a_small_study_agrees_with_the_kept_table() -> None:
    made = STUDY["table"](STUDY["study"](FEW, 1.0, STUDY["PLANS"], STUDY["load"]()))
    off = []
    for plan, by_field in made.items():
        for field, each in by_field.items():
            kept = KEPT["as assumed"][plan][field]
            doubt = 3.5 * np.sqrt(max(kept["held"] * (1 - kept["held"]), 0.02) / FEW)
            if abs(each["held"] - kept["held"]) > doubt or each["width_um"] > WIDER * kept["width_um"]:
                off.append((plan, field, each, kept))
    assert off == []


def test_every_plan_asked_for_is_in_the_table() -> None:
    assert set(KEPT["as assumed"]) == set(STUDY["PLANS"]) == {
        "recommended", "three-point only", "two-point only", "two turns", "no turns recorded", "range only"}
    assert set(KEPT["twice as bad"]) == {"recommended"}


def test_a_narrowed_interval_would_be_seen() -> None:
    """Intervals a third too narrow miss the promise: the study can fail."""
    found = STUDY["study"](FEW, 1.0, {"recommended": STUDY["PLANS"]["recommended"]}, STUDY["load"](), shrink=2 / 3)
    assert list(STUDY["misses"](STUDY["table"](found), STUDY["PLANS"], STUDY["LEAST"]))

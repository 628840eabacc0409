"""The window of a fit class and the physics of shell and bearing each bar a part; where they disagree it is told."""

from types import SimpleNamespace

import pytest

from recommender.deciding.two_gates import disagreement

ALLOWED = "The fit class allows this part; the physics bars it: clearance."
ALONE = "The fit class alone bars this part; the physics of shell and bearing does not."
TIGHT = {"holds": (2, 1, 3), "undecided": (12, 9, 14), "fails": (30, 28, 32)}
GONE = {"holds": (-4, -5, -3), "undecided": (0, -2, 2), "fails": (8, 7, 9)}


def told(bw, trade, physics) -> str:
    bars = (bw.rule("window", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least")),
            bw.rule("clearance", ("press_as_is",), "rules_out", bw.leaf("bearing.clearance_left", "below", 0.0)))
    option = bw.option("press_as_is", fit__mean_interference=TIGHT[trade], bearing__clearance_left=GONE[physics])
    book = bw.book(*bars, *bw.usable("press_as_is"),
                   fit_classes={"cup": SimpleNamespace(limits={"low": "grip.least"})})  # fmt: skip
    runs = bw.decision(bw.derived(bw.side(option)), book).runs.sides["drive"].options[0].runs
    return disagreement(runs, book)


@pytest.mark.parametrize(("trade", "physics", "said"), [
    ("fails", "holds", ALLOWED), ("fails", "fails", ""), ("fails", "undecided", ""),
    ("holds", "fails", ALONE), ("holds", "holds", ""), ("holds", "undecided", ""),
    ("undecided", "holds", ""), ("undecided", "fails", ""), ("undecided", "undecided", ""),
])
def test_a_disagreement_is_told_where_both_gates_are_decided(bw, trade, physics, said):
    assert told(bw, trade, physics) == said


def test_without_a_fit_class_nothing_disagrees(bw):
    bar = bw.rule("clearance", ("press_as_is",), "rules_out", bw.leaf("bearing.clearance_left", "below", 0.0))
    book = bw.book(bar, *bw.usable("press_as_is"))
    for left in GONE.values():
        made = bw.decision(bw.derived(bw.side(bw.option("press_as_is", bearing__clearance_left=left))), book)
        assert disagreement(made.runs.sides["drive"].options[0].runs, book) == ""

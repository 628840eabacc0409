"""Every number can be walked down to readings, formulas and limits."""

from dataclasses import replace

from recommender.deriving.derived import Measured
from recommender.facts.value import number


def test_a_verdict_is_walked_down_to_reading_formula_and_limit(bw):
    bore = number("bore.mean_diameter", 45.97, 45.96, 45.98, inputs=("case:sides.drive.readings.0",))
    made_from = ("bore.mean_diameter", "part.od", "limit:grip.least")
    fit = number("fit.mean_interference", 60.0, 57.0, 63.0, inputs=made_from)
    od = number("part.od", 46.03, 46.02, 46.04, inputs=("case:parts.0.od", "part:cup_30"))
    option = bw.option("press_as_is", "cup_46 no. 1", fit__mean_interference=fit, part__od=od)
    bar = bw.rule("polymer-cup.too-loose", ("press_as_is",), "rules_out",
                  bw.leaf("fit.mean_interference", "below", "grip.least"))
    noted = Measured("case:parts.0.od", "outside diameter", "46.030 mm", "0.005 mm", True, bw.HERE)
    measured = {noted.path: noted}
    made = bw.derived(bw.side(option, bore__mean_diameter=bore), measured=measured)
    trace = bw.advice(made, bw.book(bar, *bw.usable("press_as_is"))).trace
    walked = {node.id: node for node in trace.walk("verdict/frame")}
    subject = "drive/press_as_is/cup_46 no. 1"
    for name in ("verdict/drive", "contest/drive/press_as_is", f"contest/{subject}",
                 f"rule/polymer-cup.too-loose@{subject}", f"check/polymer-cup.too-loose@{subject}",
                 f"{subject}/fit.mean_interference", "drive/bore.mean_diameter", f"{subject}/part.od",
                 "limit:grip.least", "case:parts.0.od", "case:sides.drive.readings.0", "part:cup_30"):
        assert name in walked, name
    assert walked["drive/bore.mean_diameter"].made_by.startswith("weighted linear model")
    assert walked["limit:grip.least"].source == "common practice, no source"
    assert walked["case:parts.0.od"].assumed is True
    check = walked[f"check/polymer-cup.too-loose@{subject}"]
    assert (check.outcome, check.found, check.wanted) == ("fails", "60.0 um (57.0 to 63.0 um)",
                                                          "below 10.0 um (grip.least)")


def test_places_and_kinds_are_kept_in_the_data(bw):
    rule = bw.rule("f", "frame", "advises_against", bw.every(bw.yes("damage.crack"), bw.yes("damage.delamination")))
    data = bw.advice(bw.derived(), bw.book(rule)).trace.as_data()
    assert data["rule/f@frame"]["place"] == "invented.yaml:1:1"
    assert data["rule/f@frame"]["rests_on"] == ["group/f@frame"]
    assert data["group/f@frame"]["rests_on"] == ["check/f@frame/1", "check/f@frame/2"]
    assert data["check/f@frame/1"]["rests_on"] == ["frame/damage.crack"]
    assert data["check/f@frame/1"] == {
        "node": "Check", "place": "invented.yaml:1:1", "rests_on": ["frame/damage.crack"], "fact": "damage.crack",
        "outcome": "undecided", "found": "unknown (not derived)", "wanted": "equals True",
    }  # fmt: skip
    assert {node["node"] for node in data.values()} >= {"RuleRun", "Group", "Check", "Derived", "Contest", "Verdict"}


def test_a_fact_of_the_frame_made_from_both_sides_rests_on_both(bw):
    apart = number("evidence.sides_difference", 5.0, 3.0, 7.0, inputs=("bore.mean_diameter",))
    rule = bw.rule("f", "frame", "advises_against", bw.leaf("evidence.sides_difference", "above", 50.0))
    trace = bw.advice(bw.derived(evidence__sides_difference=apart), bw.book(rule)).trace
    assert trace.nodes["frame/evidence.sides_difference"].rests_on == (
        "drive/bore.mean_diameter", "non_drive/bore.mean_diameter")


def test_facts_made_from_each_other_do_not_go_round_for_ever(bw):
    one = number("bore.ovality", 5.0, inputs=("bore.lobing",))
    two = number("bore.lobing", 5.0, inputs=("bore.ovality",))
    rule = bw.rule("s", "side", "advises_against", bw.leaf("bore.ovality", "above", 50.0))
    side = bw.side(bw.option("press_as_is"), bore__ovality=one, bore__lobing=two)
    trace = bw.advice(bw.derived(side), bw.book(rule)).trace
    assert len(list(trace.walk("drive/bore.ovality"))) == 2


def test_sizes_of_a_bore_that_no_rule_asks_about_stand_in_the_trace(bw):
    sizes = {f"bore__{each}_diameter": 45.97 for each in ("mouth", "inner", "widest")}
    nodes = bw.advice(bw.derived(bw.side(bw.option("press_as_is"), **sizes)), bw.book()).trace.nodes
    assert [name for name in nodes if name.startswith(("drive/bore.", "non_drive/bore."))] == [
        "drive/bore.mouth_diameter", "drive/bore.inner_diameter", "drive/bore.widest_diameter"]


def test_a_question_rests_on_what_asks_it(bw):
    asks = bw.rule("ask", "frame", "asks_first", bw.yes("history.warranty_open"))
    trace = bw.advice(bw.derived(history__warranty_open=True), bw.book(asks)).trace
    (question,) = [node for node in trace.nodes.values() if node.id.startswith("question/")]
    assert question.rests_on == ("rule/ask@frame",)
    assert question.text == "Do what is asked."


def test_a_part_is_shown_with_the_band_of_its_diameter_where_one_is_known(bw):
    known = replace(bw.book().parts["cup_30"], od=(46.02, 46.04))
    option = bw.option("press_as_is", part__od=number("part.od", 46.03, 46.02, 46.04,
                       inputs=("part:a", "part:b", "part:c")))  # fmt: skip
    book = bw.book(*bw.usable("press_as_is"), bw.rule("od", ("press_as_is",), "advises_against", bw.leaf(
        "part.od", "above", 50.0)), parts={"a": known, "b": replace(known, od=None)})  # fmt: skip
    nodes = bw.advice(bw.derived(bw.side(option)), book).trace.nodes
    assert nodes["part:a"].shown == "46.020 mm to 46.040 mm at 20 degC"
    assert nodes["part:b"].shown == "no band known"
    assert nodes["part:c"].shown == "not in the parts list"


def test_a_question_on_a_side_is_kept_for_each_side_and_rests_on_what_is_open_there(bw):
    asks = bw.rule("ask", "side", "asks_first", bw.yes("evidence.gauges_contradict"))
    side = bw.side(bw.option("press_as_is"), evidence__gauges_contradict=None)
    nodes = bw.advice(bw.derived(side, side), bw.book(asks)).trace.nodes
    rests = {name: node.rests_on for name, node in nodes.items() if name.startswith("question/")}
    assert rests == {f"question/{each}/evidence.gauges_contradict Do what is asked.": (f"rule/ask@{each}",)
                     for each in ("drive", "non_drive")}  # fmt: skip


def test_a_row_of_a_grid_is_shown_at_its_own_place(book, advised):
    cases = "proceed/lane-2041", "measure_again/barn-2050"
    nodes = [node for case in cases for node in advised(case).trace.nodes.items()]
    rows = dict(node for node in nodes if node[0].startswith("grid:"))
    assert any(not name.endswith("/1") for name in rows)
    for name, node in rows.items():
        grid, _, number = name.removeprefix("grid:").partition("/")
        assert node.place == book.grids[grid].places[int(number) - 1]
        assert node.shown.startswith(f"row {number}: ")

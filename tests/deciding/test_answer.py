"""The advice as data: keys, stability, notices, what the account needs."""

import json

import pytest

from recommender.deciding.answer import as_data, to_json
from recommender.facts.value import not_applicable, unknown
from recommender.mechanics.clearance import Band, class_for

TOP = {"format", "case", "frame", "sides", "questions", "causes", "cautions", "deferrals", "notices", "house_changes",
       "rulebook", "engine", "trace"}
SIDE = {"verdict", "remedy", "reason", "make", "bearing", "conformity", "remedies", "findings", "stopped_by", "facts",
        "node"}
MAKE = {"part", "part_id", "condition", "od_mm", "window_mm", "bound_by", "tolerance", "bore_mm", "sleeve", "lands",
        "wall_left", "press_force", "valid_at", "before_work", "released", "grade", "measured_within", "lead_in",
        "seat_before", "press_forces", "collision", "lead_in_within", "compound",
        "class_window_mm"}


@pytest.fixture(scope="module")
def made(bw):
    from recommender.deriving.derived import Land, Make

    make = Make(od=(46.025, 46.035), window=(46.01, 46.05), bound_by=("a", "b"), lands=(Land(0, 5, (46.0, 46.01)),),
                press_force={"greased": (900, 1500), "dry": (1400, 2600)})
    bar = bw.rule("loose", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least"),
                  cautions=("careful",), deferrals=("ask",))
    cup = bw.side(bw.option("oversize_cup", make=make, bearing__clearance_left=(12, 9, 15)),
                  bw.option("press_as_is", fit__mean_interference=(12, 9, 14)))
    return bw.advice(bw.derived(cup, cup, damage__crack=False),
                     bw.book(bar, *bw.usable("press_as_is", "oversize_cup")))


def test_the_keys_are_those_agreed(made):
    data = as_data(made)
    assert set(data) == TOP
    assert data["format"] == "borewright/advice/1"
    assert set(data["sides"]["drive"]) == SIDE
    assert set(data["sides"]["drive"]["make"]) == MAKE
    assert set(data["sides"]["drive"]["bearing"]) == {
        "designation", "d", "D", "B", "clearance_class", "classes", "in_hand", "reducer", "bore_of_spindle", "rating"}
    assert set(data["questions"][0]) == {"fact", "name", "side", "do", "would_settle"}


def test_numbers_carry_value_interval_and_unit(made):
    found = as_data(made)["sides"]["drive"]["remedies"][0]["options"][0]["facts"]["fit.mean_interference"]
    assert found == {"shown": "12.0 um (9.0 to 14.0 um)", "value": 12.0, "low": 9.0, "high": 14.0, "unit": "um"}


def test_what_is_not_known_says_why_what_it_may_be_and_whether_it_can_be_at_all(bw):
    known = {
        "frame.material": bw.value("frame.material", None),
        "damage.delamination": not_applicable("damage.delamination", "a metal frame"),
        "frame.standard": unknown("frame.standard", "two stand")._replace(could_be=("pf30", "bb86")),
        "history.warranty_open": bw.value("history.warranty_open", True)._replace(assumed=True),
    }
    bar = bw.rule("any", "frame", "advises_against", bw.every(*map(bw.yes, ("damage.delamination", "damage.crack"))))
    shown = as_data(bw.advice(bw.derived(**{key.replace(".", "__"): each for key, each in known.items()}),
                              bw.book(bar)))["frame"]["facts"]  # fmt: skip
    assert shown == {
        "frame.material": {"shown": "unknown (not looked at)", "unknown": "not looked at"},
        "damage.delamination": {"shown": "does not apply (a metal frame)", "unknown": "a metal frame",
                                "not_applicable": True},
        "frame.standard": {"shown": "unknown (two stand)", "unknown": "two stand", "could_be": ["pf30", "bb86"]},
        "history.warranty_open": {"shown": "yes", "word": True, "assumed": True},
    }  # fmt: skip


def test_numbers_are_given_to_the_sixth_decimal_and_words_as_they_are_written(bw):
    fit = bw.value("fit.mean_interference", 12.0)._replace(value=12.00000049, low=-4e-7, high=12.0000016)
    advises = bw.rule("any", "frame", "advises_against", bw.yes("damage.crack"), because="Über dem Maß.")
    made = bw.advice(bw.derived(bw.side(bw.option("press_as_is", fit__mean_interference=fit)), damage__crack=True),
                     bw.book(advises, *bw.usable("press_as_is")))  # fmt: skip
    found = as_data(made)["sides"]["drive"]["remedies"][0]["options"][0]["facts"]["fit.mean_interference"]
    assert [repr(found[each]) for each in ("value", "low", "high")] == ["12.0", "0.0", "12.000002"]
    assert '"text":"Über dem Maß."' in to_json(made)


def test_what_to_make_is_given_in_numbers(made):
    make = as_data(made)["sides"]["drive"]["make"]
    assert (make["od_mm"], make["window_mm"], make["tolerance"]) == ([46.025, 46.035], [46.01, 46.05], 0.005)
    assert make["lands"] == [{"start_mm": 0, "end_mm": 5, "od_mm": [46.0, 46.01]}]
    assert make["press_force"] == [900, 2600]
    assert make["press_forces"] == {"greased": [900, 1500], "dry": [1400, 2600]}


def test_json_is_stable_sorted_and_can_be_read_back(made):
    text = to_json(made)
    assert text == to_json(made)
    assert "\n" not in text
    assert json.loads(text) == as_data(made)
    assert list(json.loads(text)) == sorted(TOP)


def test_a_number_that_is_not_one_is_refused(bw):
    side = bw.side(bw.option("press_as_is", fit__pressure=float("nan")))
    with pytest.raises(ValueError, match="JSON"):
        to_json(bw.advice(bw.derived(side), bw.book()))


def test_the_clearance_class_to_order_comes_first_and_says_why_not_another(bw):
    classes = class_for({"CN": Band(0.005, 0.020), "C3": Band(0.013, 0.028)}, Band(0.006, 0.012), Band(0.0, 0.028))
    side = bw.side(bw.option("press_as_is")._replace(classes=classes))
    made = bw.advice(bw.derived(side), bw.book(*bw.usable("press_as_is"))).sides["drive"].bearing
    assert made.clearance_class == "C3"
    assert [(each.name, each.left_um, each.why_not) for each in made.classes] == [
        ("C3", (1.0, 22.0), ""), ("CN", (-7.0, 14.0), "up to 7.0 um too tight")]


def test_what_a_class_leaves_is_given_to_a_hundredth_of_a_micrometre(bw):
    classes = class_for({"CN": Band(0.005, 0.020)}, Band(0.001234, 0.003456), Band(0.0, 0.028))
    side = bw.side(bw.option("press_as_is")._replace(classes=classes))
    made = bw.advice(bw.derived(side), bw.book(*bw.usable("press_as_is"))).sides["drive"].bearing
    assert [each.left_um for each in made.classes] == [(1.54, 18.77)]


def test_no_class_is_named_where_none_was_derived(bw):
    made = bw.advice(bw.derived(bw.side(bw.option("press_as_is"))), bw.book(*bw.usable("press_as_is")))
    assert made.sides["drive"].bearing.clearance_class is None


def notice(bw, derived, *rules, **more):
    return [each.id for each in bw.advice(derived, bw.book(*bw.usable("press_as_is"), *rules, **more)).notices]


def test_a_refusal_for_damage_carries_the_stop_riding_notice(bw):
    for about, fact in (("frame", "damage.delamination"), ("side", "damage.crushed_lip")):
        stops = bw.rule("stop", about, "stops_work", bw.yes(fact))
        side = bw.side(bw.option("press_as_is"), damage__crushed_lip=True)
        found = notice(bw, bw.derived(side, damage__delamination=True), stops)
        assert found[0] == "damage"
        assert "size_or_form" not in found


@pytest.mark.parametrize(("held", "sides"), [("drive", {"non_drive": True}), ("non_drive", {"drive": True})])
def test_the_notice_on_what_is_held_names_the_side_that_waits(bw, held, sides):
    asks = bw.rule("ask", "side", "asks_first", bw.yes("evidence.gauges_contradict"))
    asked = {name: bw.side(bw.option("press_as_is"), evidence__gauges_contradict=name in sides)
             for name in ("drive", "non_drive")}  # fmt: skip
    made = bw.advice(bw.derived(asked["drive"], asked["non_drive"]), bw.book(asks, *bw.usable("press_as_is")))
    assert [each.sides for each in made.notices if each.id == "held"] == [(held,)]


def test_a_refusal_for_size_or_form_carries_the_other_notice(bw):
    found = notice(bw, bw.derived(bw.side(bw.option("press_as_is", part__measured=False))))
    assert found[:2] == ["size_or_form", "held"]


def test_the_book_words_a_notice_and_the_code_keeps_it(bw):
    made = bw.derived(crack=True)
    worded = bw.book(wording={"notices": {"damage": "Leave it standing."}})
    assert "Leave it standing." in bw.advice(made, worded).notices[0].text
    assert "Do not ride" in bw.advice(made, worded).notices[0].text
    assert "Do not ride" in bw.advice(made, bw.book(wording={})).notices[0].text


def test_an_edited_book_and_house_changes_are_always_said(bw):
    changed = {"edited": True, "house_changes": (bw.house_change("grip.least"),),
               "house_void": (bw.house_change("grip.most"),)}
    made = bw.advice(bw.derived(), bw.book(*bw.usable("press_as_is"), **changed))
    assert {"book_edited", "house_changes", "house_void"} <= {each.id for each in made.notices}
    assert made.rulebook.edited is True
    assert made.house_changes[0]["reason"] == "returns"
    assert made.house_changes[0]["dated"] == "2026-01-02"


def test_every_advice_carries_the_standing_sentences(bw):
    assert notice(bw, bw.derived()).count("standing") >= 3
    texts = [each.text for each in bw.advice(bw.derived(), bw.book(standing=("One.", "Two."))).notices]
    assert texts[-2:] == ["One.", "Two."]


def test_a_finding_that_stopped_a_side_defers_but_gives_no_caution_for_work_that_is_not_done(bw):
    bar = bw.rule("loose", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least"),
                  cautions=("careful",), deferrals=("ask",))
    side = bw.side(bw.option("press_as_is", fit__mean_interference=(2, 1, 3)))
    made = bw.advice(bw.derived(side), bw.book(bar, *bw.usable("press_as_is")))
    assert [(each.text, each.sides) for each in made.deferrals] == [("Ask somebody who can.", ("drive",))]
    assert made.cautions == ()


def test_an_edited_book_may_not_drop_a_standing_sentence(bw):
    edited = bw.book(standing=("One.",), edited=True)
    texts = [each.text for each in bw.advice(bw.derived(), edited).notices]
    assert "Visual inspection cannot exclude hidden damage." in texts


def test_cautions_of_an_option_that_was_not_chosen_are_not_told(bw):
    advises = bw.rule("beside", ("press_as_is",), "advises_against", bw.yes("seat.port_near"), cautions=("careful",))
    side = bw.side(bw.option("press_as_is", "good", seat__port_near=False),
                   bw.option("press_as_is", "other", seat__port_near=True))
    made = bw.advice(bw.derived(side, side), bw.book(advises, *bw.usable("press_as_is")))
    assert made.sides["drive"].make.part == "good"
    assert made.cautions == ()

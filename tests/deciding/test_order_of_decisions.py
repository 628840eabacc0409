"""One test per sentence of the order of decisions: stances, options, sides, frame, consent."""

from dataclasses import replace

import pytest

from recommender.deciding.questions import questions_of

WORK = ("press_as_is", "press_with_compound", "oversize_cup", "ream")


def outcome(bw, *rules, **given):
    """Outcome of pressing as is on the drive side with these rules beside the usual two."""
    book = bw.book(*bw.usable("press_as_is"), *rules)
    made = bw.decision(bw.derived(bw.side(bw.option("press_as_is", **given))), book)
    return made.sides["drive"].remedies[0].outcome


def verdicts(bw, derived, *rules, **book):
    made = bw.advice(derived, bw.book(*rules, **book))
    return made.frame.verdict, made.sides["drive"].verdict, made.sides["non_drive"].verdict


# --- subjects and stances ---------------------------------------------------------------------------------------


def test_rules_about_the_frame_run_once_and_about_a_side_once_per_side(bw):
    rules = (bw.rule("f", "frame", "advises_against", bw.yes("damage.crack")),
             bw.rule("s", "side", "advises_against", bw.yes("damage.bell_mouth")))
    runs = bw.decision(bw.derived(), bw.book(*rules)).runs
    assert [run.id for run in runs.frame] == ["rule/f@frame"]
    assert [run.id for side in runs.sides.values() for run in side.general] == ["rule/s@drive", "rule/s@non_drive"]


def test_rules_about_a_remedy_run_on_every_option_of_it_and_on_no_other(bw):
    side = bw.side(bw.option("press_as_is", "one"), bw.option("press_as_is", "two"), bw.option("ream", "one"))
    runs = bw.decision(bw.derived(side), bw.book(bw.rule("r", ("press_as_is",), "rules_out", bw.yes("damage.crack"))))
    found = [run.id for each in runs.runs.sides["drive"].options for run in each.runs]
    assert found == ["rule/r@drive/press_as_is/one", "rule/r@drive/press_as_is/two"]


def test_facts_are_looked_up_in_the_option_then_the_side_then_the_frame(bw):
    condition = bw.every(bw.yes("part.suits_shell"), bw.yes("damage.bell_mouth"), bw.yes("damage.crack"))
    side = bw.side(bw.option("press_as_is"), damage__bell_mouth=True)
    book = bw.book(bw.rule("r", ("press_as_is",), "supports", condition))
    run = bw.decision(bw.derived(side, damage__crack=True), book).runs.sides["drive"].options[0].runs[0]
    assert run.outcome == "holds"


def test_a_fact_nobody_derived_is_unknown(bw):
    run = bw.decision(bw.derived(), bw.book(bw.rule("f", "frame", "stops_work", bw.yes("damage.crack")))).runs.frame[0]
    assert run.outcome == "undecided"
    assert run.deciding[0].found.why_unknown == "not derived"


def test_every_leaf_is_evaluated_even_when_the_first_decides(bw):
    condition = bw.every(bw.yes("damage.crack"), bw.yes("damage.delamination"))
    book = bw.book(bw.rule("f", "frame", "advises_against", condition))
    nodes = bw.advice(bw.derived(damage__crack=False, damage__delamination=True), book).trace.nodes
    assert [nodes[f"check/f@frame/{n}"].outcome for n in (1, 2)] == ["fails", "holds"]


# --- asks_first -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("crack", [True, None])
def test_asks_first_about_the_frame_leaves_both_sides_to_be_measured_again(bw, crack):
    asks = bw.rule("ask", "frame", "asks_first", bw.yes("history.warranty_open"))
    made = bw.derived(history__warranty_open=crack)
    assert verdicts(bw, made, asks, *bw.usable("press_as_is")) == ("measure_again",) * 3


@pytest.mark.parametrize("told", [True, None])
def test_asks_first_about_a_side_leaves_that_side_and_the_other_is_held(bw, told):
    asks = bw.rule("ask", "side", "asks_first", bw.yes("evidence.gauges_contradict"))
    made = bw.derived(bw.side(bw.option("press_as_is"), evidence__gauges_contradict=told),
                      bw.side(bw.option("press_as_is"), evidence__gauges_contradict=False))
    assert verdicts(bw, made, asks, *bw.usable("press_as_is")) == ("measure_again", "measure_again", "held")


@pytest.mark.parametrize("told", [True, None])
def test_asks_first_about_a_remedy_leaves_the_option_unsettled(bw, told):
    asks = bw.rule("ask", ("press_as_is",), "asks_first", bw.yes("seat.port_near"))
    assert outcome(bw, asks, seat__port_near=told) == "unsettled"
    assert outcome(bw, asks, seat__port_near=False) == "cleared"


def test_asks_first_names_what_to_do(bw):
    asks = bw.rule("ask", "frame", "asks_first", bw.yes("history.warranty_open"))
    made = bw.advice(bw.derived(history__warranty_open=True), bw.book(asks))
    assert made.questions[0].do == "Do what is asked."
    assert made.questions[0].would_settle == ("frame",)


def test_asks_first_never_refuses_a_frame(bw):
    asks = (bw.rule("ask", "frame", "asks_first", bw.yes("history.warranty_open")),
            bw.rule("ask-side", "side", "asks_first", bw.yes("damage.bell_mouth")),
            bw.rule("ask-remedy", WORK, "asks_first", bw.yes("seat.port_near")))
    made = bw.derived(bw.side(bw.option("press_as_is", seat__port_near=True)), history__warranty_open=True)
    assert verdicts(bw, made, *asks, *bw.usable(*WORK))[0] == "measure_again"


# --- undecided --------------------------------------------------------------------------------------------------


def test_an_undecided_rules_out_leaves_the_option_unsettled(bw):
    bar = bw.rule("loose", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least"))
    assert outcome(bw, bar, fit__mean_interference=(12, 9, 14)) == "unsettled"
    assert outcome(bw, bar, fit__mean_interference=None) == "unsettled"


def test_an_undecided_stops_work_keeps_the_frame_at_measure_again_and_the_sides_held(bw):
    stops = bw.rule("stop", "frame", "stops_work", bw.yes("damage.delamination"))
    made = bw.derived(damage__delamination=None)
    assert verdicts(bw, made, stops, *bw.usable("press_as_is")) == ("measure_again", "held", "held")


def test_an_undecided_stops_work_of_one_side_keeps_the_frame_at_measure_again(bw):
    stops = bw.rule("stop", "side", "stops_work", bw.yes("damage.crushed_lip"))
    made = bw.derived(bw.side(bw.option("press_as_is"), damage__crushed_lip=None),
                      bw.side(bw.option("press_as_is"), damage__crushed_lip=False))
    assert verdicts(bw, made, stops, *bw.usable("press_as_is")) == ("measure_again", "held", "held")


def test_an_undecided_advises_against_becomes_a_caution(bw):
    advises = bw.rule("beside", ("press_as_is",), "advises_against", bw.yes("seat.port_near"))
    assert outcome(bw, advises, seat__port_near=None) == "cleared_with_cautions"
    assert outcome(bw, advises, seat__port_near=False) == "cleared"


def test_an_undecided_supports_leaves_the_option_unsettled(bw):
    assert outcome(bw, part__suits_shell=None) == "unsettled"


# --- if_undecided: caution --------------------------------------------------------------------------------------


def excused(bw, fact="alignment.angle", **more):
    return bw.rule("line", ("press_as_is",), "rules_out", bw.leaf(fact, "above", 10.0), if_undecided="caution", **more)


def test_an_excused_bar_that_nothing_here_can_settle_is_only_a_caution(bw):
    assert outcome(bw, excused(bw), alignment__angle=(9, 5, 13)) == "cleared_with_cautions"
    assert outcome(bw, excused(bw), alignment__angle=None) == "cleared_with_cautions"
    assert outcome(bw, excused(bw), alignment__angle=(20, 15, 25)) == "ruled_out"


def test_an_excused_bar_that_the_bench_could_settle_is_not_excused(bw):
    assert outcome(bw, excused(bw, "bore.ovality"), bore__ovality=(9, 5, 13)) == "unsettled"


def test_an_excused_bar_is_not_excused_when_one_of_its_open_leaves_could_be_settled(bw):
    both = bw.rule("line", ("press_as_is",), "rules_out", bw.every(
        bw.leaf("alignment.angle", "above", 10.0), bw.leaf("bore.ovality", "above", 10.0)), if_undecided="caution")
    assert outcome(bw, both, alignment__angle=None, bore__ovality=None) == "unsettled"
    assert outcome(bw, both, alignment__angle=None, bore__ovality=50) == "cleared_with_cautions"


def test_a_sealed_bar_and_a_bar_of_the_house_are_never_excused(bw):
    assert outcome(bw, excused(bw, sealed=True), alignment__angle=None) == "unsettled"
    assert outcome(bw, excused(bw, layer="house"), alignment__angle=None) == "unsettled"


def test_the_caution_of_an_excused_bar_prints_fact_interval_and_limit(bw):
    bar = bw.rule("line", ("press_as_is",), "rules_out", bw.leaf("fit.pressure", "below", "grip.least"),
                  if_undecided="caution")
    side = bw.side(bw.option("press_as_is", fit__pressure=(10, 8, 12)))
    made = bw.advice(bw.derived(side, side), bw.book(bar, *bw.usable("press_as_is")))
    assert made.frame.verdict == "proceed"
    (caution,) = [each for each in made.cautions if each.id == "line"]
    assert "contact pressure 10.0 MPa (8.0 to 12.0 MPa) is not clear of 10.0 um (least interference)" in caution.text


# --- option -----------------------------------------------------------------------------------------------------


def test_the_strictest_stance_wins(bw):
    rules = (bw.rule("for", ("press_as_is",), "supports", bw.yes("part.suits_shell")),
             bw.rule("but", ("press_as_is",), "advises_against", bw.yes("part.suits_shell")),
             bw.rule("ask", ("press_as_is",), "asks_first", bw.yes("part.suits_shell")),
             bw.rule("out", ("press_as_is",), "rules_out", bw.yes("part.suits_shell")))
    assert [outcome(bw, *rules[: n + 1]) for n in range(4)] == [
        "cleared", "cleared_with_cautions", "unsettled", "ruled_out"]


def test_an_option_for_which_every_reason_fails_is_not_applicable(bw):
    assert outcome(bw, part__suits_shell=False) == "not_applicable"


def test_one_reason_that_holds_is_enough(bw):
    other = bw.rule("other", ("press_as_is",), "supports", bw.yes("seat.port_near"))
    assert outcome(bw, other, seat__port_near=None) == "cleared"


def test_no_reason_holds_but_one_is_undecided(bw):
    other = bw.rule("other", ("press_as_is",), "supports", bw.yes("seat.port_near"))
    assert outcome(bw, other, part__suits_shell=False, seat__port_near=None) == "unsettled"


def test_an_open_bar_does_not_bring_back_an_option_nobody_speaks_for(bw):
    assert outcome(bw, part__suits_shell=False, part__measured=None) == "not_applicable"


def test_it_is_cleared_only_when_every_bar_fails(bw):
    assert outcome(bw, part__measured=True) == "cleared"
    assert outcome(bw, part__measured=None) == "unsettled"
    assert outcome(bw, part__measured=False) == "ruled_out"


@pytest.mark.parametrize("kept", ["supports", "rules_out"])
def test_silence_is_never_consent(bw, kept):
    rules = [rule for rule in bw.usable("press_as_is") if rule.stance == kept]
    made = bw.decision(bw.derived(), bw.book(*rules))
    assert made.sides["drive"].remedies[0].outcome == "not_applicable"
    assert made.frame.verdict == "refuse"


def test_a_remedy_takes_its_best_option(bw):
    given = {"cleared": {}, "unsettled": {"part__measured": None}, "ruled_out": {"part__measured": False},
             "not_applicable": {"part__suits_shell": False}}
    options = [bw.option("press_as_is", name, **facts) for name, facts in given.items()]
    for left in range(4):
        book = bw.book(*bw.usable("press_as_is"))
        remedy = bw.decision(bw.derived(bw.side(*options[left:])), book).sides["drive"].remedies[0]
        assert remedy.outcome == list(given)[left]


# --- side -------------------------------------------------------------------------------------------------------


def test_a_stops_work_that_holds_refuses_before_anything_is_asked(bw):
    rules = (bw.rule("stop", "frame", "stops_work", bw.yes("damage.delamination")),
             bw.rule("ask", "frame", "asks_first", bw.yes("damage.delamination")))
    made = bw.derived(damage__delamination=True)
    assert verdicts(bw, made, *rules, *bw.usable("press_as_is")) == ("refuse", "refuse", "refuse")


def test_what_is_asked_first_comes_before_a_refusal_for_size(bw):
    asks = bw.rule("ask", "side", "asks_first", bw.yes("evidence.gauges_contradict"))
    side = bw.side(bw.option("press_as_is", part__measured=False), evidence__gauges_contradict=True)
    assert verdicts(bw, bw.derived(side, side), asks, *bw.usable("press_as_is"))[1] == "measure_again"


def test_only_ruled_out_and_not_applicable_left_is_a_refusal_with_what_stopped_each(bw):
    bar = bw.rule("loose", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least"))
    side = bw.side(bw.option("press_as_is", fit__mean_interference=(2, 1, 3)),
                   bw.option("oversize_cup", part__suits_shell=False))
    made = bw.advice(bw.derived(side), bw.book(bar, *bw.usable("press_as_is", "oversize_cup")))
    assert made.sides["drive"].verdict == "refuse"
    stopped = {each.rule: each.checks[0].margin for each in made.sides["drive"].stopped_by}
    assert stopped == {"loose": pytest.approx(7.0), "oversize_cup.reason": None}


def test_a_side_without_any_option_is_not_refused_for_want_of_knowledge(bw):
    made = bw.advice(bw.derived(bw.side()), bw.book(*bw.usable("press_as_is")))
    assert made.sides["drive"].verdict == "measure_again"
    assert made.questions


def walk(bw, press, cup, ream, order=None):
    """Verdict of a side on which the three remedies have these outcomes."""
    given = {"cleared": {}, "unsettled": {"part__measured": None}, "stuck": {"part__measured": True},
             "ruled_out": {"part__measured": False}}
    names = {"press_as_is": press, "oversize_cup": cup, "ream": ream}
    stuck = [bw.rule(f"{name}.stuck", (name,), "rules_out", bw.leaf("fit.pressure", "below", 0.0))
             for name, word in names.items() if word == "stuck"]
    side = bw.side(*(bw.option(name, **given[word]) for name, word in names.items()))
    remedies = bw.REMEDIES if order is None else tuple(
        next(each for each in bw.REMEDIES if each.id == name) for name in order)
    book = bw.book(*bw.usable(*names), *stuck, remedies=remedies)
    made = bw.advice(bw.derived(side, side), book)
    return made.sides["drive"].verdict, made


@pytest.mark.parametrize(("outcomes", "verdict"), [
    (("cleared", "cleared", "cleared"), "press_as_is"),
    (("ruled_out", "cleared", "cleared"), "oversize_cup"),
    (("ruled_out", "ruled_out", "cleared"), "ream"),
    (("cleared", "unsettled", "cleared"), "press_as_is"),
    (("ruled_out", "ruled_out", "ruled_out"), "refuse"),
])
def test_the_first_cleared_remedy_in_the_order_of_the_book_is_the_verdict(bw, outcomes, verdict):
    assert walk(bw, *outcomes)[0] == verdict


def test_an_unsettled_remedy_waits_when_the_next_cleared_one_cannot_be_undone(bw):
    assert walk(bw, "unsettled", "ruled_out", "cleared")[0] == "measure_again"


def test_an_unsettled_remedy_waits_when_there_is_no_cleared_one(bw):
    assert walk(bw, "unsettled", "ruled_out", "ruled_out")[0] == "measure_again"


def test_otherwise_the_next_cleared_one_is_the_verdict_and_the_question_is_printed_with_what_it_would_win(bw):
    verdict, made = walk(bw, "unsettled", "cleared", "ruled_out")
    assert verdict == "oversize_cup"
    assert made.frame.verdict == "proceed"
    asked = [(each.fact, each.side, each.would_settle) for each in made.questions]
    assert asked == [("part.measured", name, (f"{name}/press_as_is",)) for name in ("drive", "non_drive")]


def test_an_unsettled_remedy_that_nothing_here_can_settle_is_passed_over_with_a_caution(bw):
    verdict, made = walk(bw, "stuck", "cleared", "ruled_out")
    assert verdict == "oversize_cup"
    assert [each.because for each in made.cautions if each.id == "passed-over.press_as_is"] == [("press_as_is.stuck",)]


def test_a_remedy_that_cannot_be_undone_follows_one_that_nothing_here_can_settle(bw):
    assert walk(bw, "stuck", "ruled_out", "cleared")[0] == "ream"


def test_only_remedies_that_nothing_here_can_settle_are_no_reason_to_refuse(bw):
    verdict, made = walk(bw, "stuck", "ruled_out", "ruled_out")
    assert verdict == "measure_again"
    assert {each.fact for each in made.questions} == {"fit.pressure"}


def test_no_cutting_while_a_reversible_remedy_later_in_the_order_could_be_settled(bw):
    order = ("ream", "press_as_is", "oversize_cup")
    assert walk(bw, "unsettled", "ruled_out", "cleared", order)[0] == "measure_again"
    assert walk(bw, "ruled_out", "ruled_out", "cleared", order)[0] == "ream"
    assert walk(bw, "stuck", "ruled_out", "cleared", order)[0] == "ream"


def test_an_asks_first_with_something_to_do_can_be_settled_whatever_its_fact(bw):
    asks = bw.rule("ask", ("press_as_is",), "asks_first", bw.leaf("fit.pressure", "below", 0.0))
    side = bw.side(bw.option("press_as_is"), bw.option("ream"))
    assert verdicts(bw, bw.derived(side, side), asks, *bw.usable("press_as_is", "ream"))[1] == "measure_again"


def test_what_is_unknown_because_the_part_was_not_measured_is_settled_by_measuring_the_part(bw):
    bar = bw.rule("stress", ("press_as_is",), "rules_out", bw.leaf("fit.pressure", "above", 5.0))
    part = bw.option("press_as_is", part__od=None, fit__pressure=None)
    made = bw.advice(bw.derived(bw.side(part, bw.option("ream"))), bw.book(bar, *bw.usable("press_as_is", "ream")))
    assert made.sides["drive"].verdict == "measure_again"
    assert [each.fact for each in made.questions if each.side == "drive"] == ["part.od"]


# --- frame ------------------------------------------------------------------------------------------------------


def test_one_refused_side_refuses_the_frame_and_the_other_is_held_with_its_remedy_and_part(bw):
    made = bw.advice(bw.derived(bw.side(bw.option("press_as_is", part__measured=False))),
                     bw.book(*bw.usable("press_as_is")))
    other = made.sides["non_drive"]
    assert (made.frame.verdict, made.sides["drive"].verdict, other.verdict) == ("refuse", "refuse", "held")
    assert (other.remedy, other.make.part, other.make.released) == ("press_as_is", "cup", False)


def test_a_refusal_outweighs_a_side_to_be_measured_again(bw):
    made = bw.derived(bw.side(bw.option("press_as_is", part__measured=False)),
                      bw.side(bw.option("press_as_is", part__measured=None)))
    assert verdicts(bw, made, *bw.usable("press_as_is")) == ("refuse", "refuse", "measure_again")


def test_two_cleared_sides_with_parts_that_belong_together_proceed(bw):
    assert verdicts(bw, bw.derived(), *bw.usable("press_as_is")) == ("proceed", "press_as_is", "press_as_is")


@pytest.mark.parametrize("other", ["cup_25", "bare_30", "nobody-knows"])
def test_parts_with_another_bearing_or_kind_do_not_belong_together(bw, other):
    sides = bw.side(bw.option("press_as_is", "one", "cup_30")), bw.side(bw.option("press_as_is", "two", other))
    made = bw.advice(bw.derived(*sides), bw.book(*bw.usable("press_as_is")))
    assert made.frame.verdict == "measure_again"
    assert [made.sides[side].verdict for side in ("drive", "non_drive")] == ["held", "held"]
    assert "choose" in made.questions[0].do


def test_another_cleared_part_is_taken_when_only_then_the_sides_belong_together(bw):
    both = bw.side(bw.option("press_as_is", "a", "cup_25"), bw.option("press_as_is", "b", "cup_30"))
    only = bw.side(bw.option("press_as_is", "c", "cup_30"))
    made = bw.advice(bw.derived(both, only), bw.book(*bw.usable("press_as_is")))
    assert made.frame.verdict == "proceed"
    assert [made.sides[side].make.part for side in ("drive", "non_drive")] == ["b", "c"]


def test_one_part_in_hand_cannot_go_into_both_sides(bw):
    def mine(number):
        od = bw.value("part.od", 46.03)._replace(inputs=(f"case:parts.{number}.od",))
        return bw.option("press_as_is", f"cup no. {number}", part__od=od)

    book = bw.book(*bw.usable("press_as_is"))
    one = bw.advice(bw.derived(bw.side(mine(0)), bw.side(mine(0))), book)
    assert one.frame.verdict == "measure_again"
    assert "second" in one.questions[0].do
    two = bw.advice(bw.derived(bw.side(mine(0), mine(1)), bw.side(mine(0), mine(1))), book)
    assert two.frame.verdict == "proceed"
    assert two.sides["drive"].make.part != two.sides["non_drive"].make.part


def test_a_part_of_the_parts_list_can_go_into_both_sides(bw):
    od = bw.value("part.od", 46.03)._replace(inputs=("part:cup_30", "part:cup_30.od"))
    side = bw.side(bw.option("press_as_is", "cup_30", part__od=od))
    assert bw.advice(bw.derived(side, side), bw.book(*bw.usable("press_as_is"))).frame.verdict == "proceed"


def together(bw, one, two, **more):
    sides = bw.side(bw.option("press_as_is", "one", one)), bw.side(bw.option("press_as_is", "two", two))
    made = bw.advice(bw.derived(*sides), bw.book(*bw.usable("press_as_is"), **more))
    return made.frame.verdict, " ".join(each.do for each in made.questions)


def test_parts_that_do_not_belong_together_are_told_apart_in_words(bw):
    assert together(bw, "cup_30", "nobody-knows")[1].startswith("A part chosen is not in the parts list")
    assert together(bw, "nobody-knows", "cup_30")[1].startswith("A part chosen is not in the parts list")
    assert "Cup_30 and bare_30 do not belong together" in together(bw, "cup_30", "bare_30")[1]
    assert "Cup_30 and cup_25 take different spindles" in together(bw, "cup_30", "cup_25")[1]


def test_bearings_nobody_knows_are_not_taken_to_have_the_same_bore(bw):
    ordinary = bw.book().parts["cup_30"]
    parts = {each: replace(ordinary, id=each, title=each, bearing=f"of {each}") for each in ("a", "b")}
    assert together(bw, "a", "b", parts=parts)[0] == "measure_again"
    same = {each: replace(ordinary, id=each, title=each) for each in ("a", "b")}
    assert together(bw, "a", "b", parts=same)[0] == "proceed"


def test_alignment_belongs_to_both_sides(bw):
    crooked = bw.rule("line", WORK, "rules_out", bw.leaf("alignment.angle", "above", 10.0))
    made = bw.derived(alignment__angle=(20, 18, 22))
    assert verdicts(bw, made, crooked, *bw.usable("press_as_is")) == ("refuse", "refuse", "refuse")


def test_a_caution_on_alignment_is_said_once_for_both_sides(bw):
    crooked = bw.rule("line", WORK, "advises_against", bw.leaf("alignment.angle", "above", 5.0), cautions=("careful",))
    made = bw.advice(bw.derived(alignment__angle=(8, 7, 9)), bw.book(crooked, *bw.usable("press_as_is")))
    assert [(each.id, each.sides) for each in made.cautions] == [("careful", ("drive", "non_drive"))]


# --- fit and conformity, causes ---------------------------------------------------------------------------------


@pytest.mark.parametrize("answer", ["proved_conforming", "proved_not_conforming", "not_proved", "no_published_limit"])
def test_conformity_is_reported_and_changes_nothing(bw, answer):
    side = bw.side(bw.option("press_as_is"), conformity__size=answer)
    made = bw.advice(bw.derived(side, side), bw.book(*bw.usable("press_as_is")))
    assert made.frame.verdict == "proceed"
    assert made.sides["drive"].conformity.size == answer


def test_nothing_known_of_conformity_proves_nothing(bw):
    assert bw.advice(bw.derived(), bw.book()).sides["drive"].conformity.envelope == "not_proved"


def test_causes_list_for_against_and_open_and_never_touch_the_verdict(bw):
    rules = (bw.rule("for", {"cause": "worn"}, "supports", bw.yes("damage.polished_band")),
             bw.rule("against", {"cause": "worn"}, "advises_against", bw.yes("damage.mould_mark")),
             bw.rule("open", {"cause": "worn"}, "supports", bw.yes("damage.bell_mouth")))
    side = bw.side(bw.option("press_as_is"), damage__polished_band=True, damage__mould_mark=True)
    made = bw.advice(bw.derived(side, bw.side(bw.option("press_as_is"), damage__bell_mouth=False)),
                     bw.book(*rules, *bw.usable("press_as_is")))
    assert made.frame.verdict == "proceed"
    worn = next(each for each in made.causes if each.side == "drive")
    lists = (worn.speaks_for, worn.speaks_against, worn.open)
    assert [[each.rule for each in listed] for listed in lists] == [["for"], ["against"], ["open"]]


# --- consent, warranty, what is missing before work -------------------------------------------------------------


def reamed(bw, consent=(), warranty=False, **option):
    side = bw.side(bw.option("ream", **option))
    return bw.advice(bw.derived(side, side, history__warranty_open=warranty), bw.book(*bw.usable("ream")), consent)


def test_an_irreversible_verdict_stands_and_names_what_is_missing(bw):
    made = reamed(bw)
    assert (made.frame.verdict, made.sides["drive"].verdict) == ("proceed", "ream")
    assert "agreement" in made.sides["drive"].make.before_work[0]
    assert made.sides["drive"].make.released is False
    assert "not_released" in [each.id for each in made.notices]


def test_with_consent_and_the_warranty_question_answered_it_is_released(bw):
    make = reamed(bw, consent=["ream"]).sides["drive"].make
    assert (make.before_work, make.released) == ((), True)


@pytest.mark.parametrize("warranty", [True, None])
def test_nothing_is_cut_before_the_warranty_question_is_answered(bw, warranty):
    make = reamed(bw, consent=["ream"], warranty=warranty).sides["drive"].make
    assert len(make.before_work) == 1
    assert f"warranty question, which {'is open' if warranty else 'has not been asked'}:" in make.before_work[0]


def test_a_remedy_about_which_a_rule_asks_the_warranty_waits_for_it_too(bw):
    glue = bw.rule("claim", ("press_with_compound",), "advises_against", bw.yes("history.warranty_open"))
    side = bw.side(bw.option("press_with_compound"))
    for warranty, missing in ((True, 1), (None, 1), (False, 0)):
        made = bw.advice(bw.derived(side, side, history__warranty_open=warranty),
                         bw.book(glue, *bw.usable("press_with_compound")))
        assert len(made.sides["drive"].make.before_work) == missing


def test_a_part_that_was_not_measured_is_cleared_only_under_its_condition(bw):
    side = bw.side(bw.option("press_as_is", condition="if it measures between 46.010 mm and 46.040 mm"))
    make = bw.advice(bw.derived(side, side), bw.book(*bw.usable("press_as_is"))).sides["drive"].make
    assert "46.010 mm and 46.040 mm" in make.before_work[0]
    assert make.released is False


# --- questions --------------------------------------------------------------------------------------------------


def test_a_question_is_asked_once_in_the_words_of_the_rule_with_all_it_would_settle(bw):
    asks = bw.rule("ask", "side", "asks_first", bw.every(bw.yes("damage.bell_mouth"), bw.yes("seat.port_near")))
    bar = bw.rule("bar", ("press_as_is",), "rules_out", bw.yes("seat.port_near"))
    side = bw.side(bw.option("press_as_is"), damage__bell_mouth=True)
    made = bw.advice(bw.derived(side, bw.side(bw.option("press_as_is"), damage__bell_mouth=False)),
                     bw.book(asks, bar, *bw.usable("press_as_is")))
    asked = [(each.fact, each.do, each.would_settle) for each in made.questions if each.side == "drive"]
    assert asked == [("seat.port_near", "Do what is asked.", ("drive", "drive/press_as_is"))]


def test_an_undecided_stop_brings_its_question_and_not_yet_its_deferral(bw):
    stops = bw.rule("stop", "frame", "stops_work", bw.yes("damage.delamination"), deferrals=("ask",))
    made = bw.advice(bw.derived(damage__delamination=None), bw.book(stops, *bw.usable("press_as_is")))
    assert [each.fact for each in made.questions] == ["damage.delamination"]
    assert made.deferrals == ()
    held = bw.advice(bw.derived(damage__delamination=True), bw.book(stops, *bw.usable("press_as_is")))
    assert [each.id for each in held.deferrals] == ["ask"]


def test_reasons_name_what_stopped_or_asked(bw):
    asks = bw.rule("ask-me", "frame", "asks_first", bw.yes("history.warranty_open"))
    made = bw.advice(bw.derived(history__warranty_open=True), bw.book(asks))
    assert made.frame.reasons == ("Both sides: To be settled first: ask me.",)


def test_a_reason_names_the_side_it_is_about_unless_both_have_it(bw):
    bad, good = bw.side(bw.option("press_as_is", part__measured=False)), bw.side(bw.option("press_as_is"))
    book = bw.book(*bw.usable("press_as_is"))
    no_part = "No remedy is left: press_as_is.bar."
    assert bw.advice(bw.derived(bad, good), book).frame.reasons == (f"Drive side: {no_part}",)
    assert bw.advice(bw.derived(good, bad), book).frame.reasons == (f"Non-drive side: {no_part}",)
    assert bw.advice(bw.derived(bad, bad), book).frame.reasons == (f"Both sides: {no_part}",)
    open_bar, nothing = bw.side(bw.option("press_as_is", part__measured=None)), bw.side()
    assert bw.advice(bw.derived(open_bar, nothing), book).frame.reasons == (
        "Drive side: Open before a remedy can be chosen: press_as_is.bar.",
        "Non-drive side: No part is known that could go into this bore.")


def test_a_side_to_be_measured_again_about_which_nothing_is_asked_is_never_passed_over(bw):
    """No book brings this about: the decision of the other side is put in its place."""
    open_bar = bw.side(bw.option("press_as_is", part__measured=None))
    book = bw.book(*bw.usable("press_as_is"))
    made = bw.decision(bw.derived(bw.side(bw.option("press_as_is")), open_bar), book)
    assert questions_of(made, book)
    asks = bw.rule("ask", "side", "asks_first", bw.yes("evidence.gauges_contradict"))
    made = bw.decision(bw.derived(), bw.book(asks, *bw.usable("press_as_is")))
    swapped = made._replace(sides={**made.sides, "drive": made.sides["non_drive"]})
    with pytest.raises(RuntimeError, match="the drive side is to be measured again, but nothing to do is named"):
        questions_of(swapped, book)
    silent = made._replace(sides={name: each._replace(verdict="held") for name, each in made.sides.items()})
    with pytest.raises(RuntimeError, match="the frame is to be measured again"):
        questions_of(silent, book)


def test_of_several_unsettled_parts_those_that_can_be_settled_here_are_asked_about(bw):
    stuck = bw.rule("stuck", ("press_as_is",), "rules_out", bw.leaf("fit.pressure", "below", 0.0))
    hopeless, open_bar = ({"fit__pressure": None}, {"fit__pressure": 5.0, "part__measured": None})
    book = bw.book(stuck, *bw.usable("press_as_is"))
    both = bw.side(bw.option("press_as_is", "one", **hopeless), bw.option("press_as_is", "two", **open_bar))
    asked = {each.fact for each in bw.advice(bw.derived(both, both), book).questions}
    assert asked == {"part.measured"}
    only = bw.side(bw.option("press_as_is", "one", **hopeless))
    assert {each.fact for each in bw.advice(bw.derived(only, only), book).questions} == {"fit.pressure"}


@pytest.mark.parametrize("bars", [(10.0, 11.9), (11.9, 10.0), (11.5, 12.0), (12.0, 11.5)])
def test_of_several_limits_that_a_number_is_too_close_to_the_closest_is_asked_about(bw, bars):
    """12 +-4 um: at 11.9 and at 12 um no finer reading tells, whatever would do at 10 or 11.5 um."""
    rules = [bw.rule(f"bar-{n}", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", each))
             for n, each in enumerate(bars)]
    side = bw.side(bw.option("press_as_is", fit__mean_interference=(12, 8, 16)))
    made = bw.advice(bw.derived(side, side), bw.book(*rules, *bw.usable("press_as_is")))
    told = {each.do for each in made.questions}
    assert len(told) == 1
    assert f"not clear of {max(bars)}, from which it lies too near" in told.pop()


def test_a_caution_on_a_sign_is_not_given_where_nobody_looked_for_it(bw):
    port = bw.rule("beside", ("press_as_is",), "advises_against", bw.yes("damage.bell_mouth"), cautions=("careful",))
    tight = bw.rule("tight", ("press_as_is",), "advises_against", bw.leaf("fit.mean_interference", "below", 10.0),
                    cautions=("careful",))
    for rule, given, said in ((port, {}, False), (port, {"damage__bell_mouth": True}, True),
                              (tight, {"fit__mean_interference": (12, 9, 14)}, True),
                              (tight, {"fit__mean_interference": (2, 1, 3)}, True),
                              (tight, {"fit__mean_interference": (22, 21, 23)}, False)):
        side = bw.side(bw.option("press_as_is", **given))
        made = bw.advice(bw.derived(side, side), bw.book(rule, *bw.usable("press_as_is")))
        assert ("careful" in {each.id for each in made.cautions}) is said, (rule.id, given)

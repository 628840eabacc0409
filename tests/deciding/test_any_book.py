"""What must hold for any rule book and any facts, however they were invented."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.deciding.answer import to_json
from recommender.deciding.contest import CLEARED
from recommender.deciding.milder import STRICTNESS

REMEDY_IDS = ("press_as_is", "press_with_compound", "oversize_cup", "ream")
FRAME_FLAGS = ("damage.delamination", "history.warranty_open", "alignment.measured")
SIDE_FLAGS = ("damage.bell_mouth", "seat.port_near")
OPTION_FLAGS = ("part.suits_shell", "part.measured")
NUMBERS = ("fit.mean_interference", "fit.pressure")
GENERAL = ("stops_work", "asks_first", "advises_against")
STANCES = {"frame": GENERAL, "side": GENERAL,
           "remedies": ("rules_out", "asks_first", "advises_against", "supports")}

flags = st.sampled_from([True, False, None])
numbers = st.one_of(st.none(), st.tuples(st.floats(-50, 50), st.floats(0, 20)).map(
    lambda each: (round(each[0], 2), round(each[0] - each[1], 2), round(each[0] + each[1], 2))))


@st.composite
def conditions(draw, bw, kind):
    usable = FRAME_FLAGS + (SIDE_FLAGS if kind != "frame" else ()) + (OPTION_FLAGS if kind == "remedies" else ())
    asked = draw(st.lists(st.sampled_from(usable), min_size=1, max_size=2))
    leaves = [bw.leaf(fact, "equals", draw(st.booleans())) for fact in asked]
    if kind == "remedies" and draw(st.booleans()):
        leaves.append(bw.leaf(draw(st.sampled_from(NUMBERS)), draw(st.sampled_from(["above", "below"])), 0.0))
    group = draw(st.sampled_from([bw.every, bw.some]))
    return leaves[0] if len(leaves) == 1 else group(*leaves)


@st.composite
def rules(draw, bw, name, stances=None):
    kind = draw(st.sampled_from(["frame", "side", "remedies", "remedies", "remedies"]))
    allowed = [each for each in STANCES[kind] if stances is None or each in stances] or ["advises_against"]
    about = kind if kind != "remedies" else draw(st.lists(st.sampled_from(REMEDY_IDS), min_size=1, unique=True))
    return bw.rule(name, about, draw(st.sampled_from(allowed)), draw(conditions(bw, kind)),
                   if_undecided=draw(st.sampled_from([None, "caution"])), do=draw(st.sampled_from([(), ("do-it",)])))


@st.composite
def books(draw, bw):
    made = [draw(rules(bw, f"rule-{number}")) for number in range(draw(st.integers(0, 5)))]
    return bw.book(*bw.usable(*REMEDY_IDS), *made)


@st.composite
def facts(draw, bw):
    def side():
        options = [bw.option(remedy, f"part {number}", draw(st.sampled_from(["cup_30", "cup_25", "bare_30"])),
                             **{each.replace(".", "__"): draw(flags) for each in OPTION_FLAGS},
                             **{each.replace(".", "__"): draw(numbers) for each in NUMBERS},
                             part__od=draw(st.sampled_from([None, 46.0])))
                   for remedy in REMEDY_IDS for number in range(draw(st.integers(0, 2)))]
        return bw.side(*options, **{each.replace(".", "__"): draw(flags) for each in SIDE_FLAGS})

    return bw.derived(side(), side(), **{each.replace(".", "__"): draw(flags) for each in FRAME_FLAGS})


def remedies(decision):
    return {(name, each.remedy.id): each for name, side in decision.sides.items() for each in side.remedies}


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_adding_a_finding_never_makes_a_remedy_milder(bw, data):
    made, book = data.draw(facts(bw)), data.draw(books(bw))
    more = data.draw(rules(bw, "added", ("stops_work", "rules_out", "asks_first", "advises_against")))
    before = remedies(bw.decision(made, book))
    after = remedies(bw.decision(made, bw.book(*book.rules, more)))
    for key, result in before.items():
        assert STRICTNESS[after[key].outcome] >= STRICTNESS[result.outcome]


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_adding_a_reason_never_helps_against_a_bar_or_a_question(bw, data):
    made, book = data.draw(facts(bw)), data.draw(books(bw))
    reason = bw.rule("added", REMEDY_IDS, "supports", bw.leaf("part.suits_shell", "known", data.draw(st.booleans())))
    before = bw.decision(made, book).sides
    after = bw.decision(made, bw.book(*book.rules, reason)).sides
    for name in before:
        for one, two in zip(before[name].remedies, after[name].remedies, strict=True):
            for was, now in zip(one.options, two.options, strict=True):
                if was.outcome == "ruled_out":
                    assert now.outcome == "ruled_out"
                if any(run.rule.stance != "supports" for run in was.open):
                    assert now.outcome == "unsettled"


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_adding_a_stops_work_never_makes_the_frame_milder(bw, data):
    made, book = data.draw(facts(bw)), data.draw(books(bw))
    about = data.draw(st.sampled_from(["frame", "side"]))
    more = bw.rule("added", about, "stops_work", data.draw(conditions(bw, about)))
    ranks = ("proceed", "measure_again", "refuse")
    before = ranks.index(bw.decision(made, book).frame.verdict)
    assert ranks.index(bw.decision(made, bw.book(*book.rules, more)).frame.verdict) >= before


@settings(max_examples=40, deadline=None)
@given(data=st.data(), seed=st.integers(0, 1000))
def test_the_order_of_the_rules_changes_nothing(bw, data, seed):
    made, book = data.draw(facts(bw)), data.draw(books(bw))
    shuffled = list(book.rules)
    random.Random(seed).shuffle(shuffled)
    assert to_json(bw.advice(made, book)) == to_json(bw.advice(made, bw.book(*shuffled)))


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_a_crack_that_was_seen_refuses_under_any_book(bw, data):
    made = data.draw(facts(bw))._replace(crack_seen=True)
    advice = bw.advice(made, data.draw(books(bw)))
    assert [advice.frame.verdict, *(side.verdict for side in advice.sides.values())] == ["refuse"] * 3
    assert advice.notices[0].id == "damage"
    assert all(side.make is None for side in advice.sides.values())


@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_a_frame_proceeds_only_when_nothing_stops_asks_or_is_open(bw, data):
    made, book = data.draw(facts(bw)), data.draw(books(bw))
    decision = bw.decision(made, book)
    if decision.frame.verdict != "proceed":
        return
    general = [*decision.runs.frame, *(run for side in decision.runs.sides.values() for run in side.general)]
    assert all(run.outcome == "fails" for run in general if run.rule.stance in ("stops_work", "asks_first"))
    for side in decision.sides.values():
        assert side.chosen.outcome in CLEARED
        bars = [run for run in side.chosen.runs if run.rule.stance == "rules_out"]
        assert bars
        assert all(run.outcome == "fails" or run.rule.if_undecided == "caution" for run in bars)
        assert not any(run.outcome == "holds" for run in bars)


@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_nothing_is_cut_while_a_reversible_remedy_could_be_settled(bw, data):
    made = bw.decision(data.draw(facts(bw)), data.draw(books(bw)))
    for side in made.sides.values():
        if side.verdict == "ream":
            assert not any(each.settleable for each in side.remedies if each.remedy.reversible)


@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_whatever_is_to_be_measured_again_names_something_to_do(bw, data):
    advice = bw.advice(data.draw(facts(bw)), data.draw(books(bw)))
    if advice.frame.verdict == "measure_again":
        assert advice.questions
        assert all(each.do for each in advice.questions)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_every_verdict_can_be_walked_down_to_facts(bw, data):
    trace = bw.advice(data.draw(facts(bw)), data.draw(books(bw))).trace
    assert all(each in trace.nodes for node in trace.nodes.values() for each in node.rests_on)
    walked = list(trace.walk("verdict/frame"))
    assert {"verdict/drive", "verdict/non_drive"} <= {node.id for node in walked}
    ends = {type(node).__name__ for node in walked if not node.rests_on and not node.id.startswith("contest/")}
    assert ends <= {"Derived", "LimitUsed", "Measured"}

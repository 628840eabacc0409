"""What the shipped rules say on shipped cases and small changes of them, where a reader could be misled."""

from functools import cache
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import case_in, load_case
from recommender.deciding.answer import Advice, CauseShown
from recommender.deciding.trace import LimitUsed
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

CASES = Path(__file__).resolve().parents[2] / "cases"


@cache
def book() -> Rulebook:
    return load()


@cache
def advised(case: str) -> Advice:
    return advise(load_case(CASES / f"{case}.yaml"), book())


def changed(case: str, before: str, after: str) -> Advice:
    text = (CASES / f"{case}.yaml").read_text(encoding="utf-8").partition("\nexpect:")[0]
    assert before in text
    return advise(case_in(read_text(text.replace(before, after), f"{case}.yaml")), book())


def causes(advice: Advice, cause: str) -> list[CauseShown]:
    return [each for each in advice.causes if each.cause == cause]


@pytest.mark.parametrize(("cause", "against"), [
    ("worn", "worn.not-too-large"), ("interference_overload", "interference-overload.not-too-large"),
])  # fmt: skip
def test_a_bore_within_or_under_its_limits_is_neither_worn_nor_stretched(cause: str, against: str) -> None:
    advice = advised("proceed/orchard-2052")
    told = causes(advice, cause)
    over = [advice.sides[each.side].facts["bore.over_upper_limit"].high for each in told]
    assert len(told) == 2
    assert all(each is not None and each < 0 for each in over)
    for each in told:
        assert not each.speaks_for
        assert against in {finding.rule for finding in each.speaks_against}


def test_a_frame_of_unknown_material_is_asked_for_it_and_nothing_is_ruled_out_for_want_of_a_window() -> None:
    advice = changed("proceed/orchard-2052", "material: aluminium, standard", "material: unknown, standard")
    assert advice.frame.verdict == "measure_again"
    asked = [each for each in advice.questions if each.fact == "frame.material"]
    assert asked
    assert all("what the shell is made of" in each.do for each in asked)
    for side in advice.sides.values():
        findings = [each for remedy in side.remedies for option in remedy.options for each in option.findings]
        assert "fit.class-unknown" not in {each.rule for each in findings if each.outcome == "holds"}


def test_a_number_on_its_limit_is_asked_for_with_the_spread_that_would_settle_it() -> None:
    advice = advised("measure_again/anvil-2072")
    (asked,) = [each for each in advice.questions if each.fact == "fit.tightest_interference"]
    (remedy,) = [each for each in advice.sides["drive"].remedies if each.id == "press_as_is"]
    checks = [each for finding in remedy.options[0].findings for each in finding.checks if each.fact == asked.fact]
    nearest = min(abs(each.margin) for each in checks if each.outcome == "undecided" and each.margin is not None)
    found = checks[0].found
    assert found.low is not None
    assert found.high is not None
    half = (found.high - found.low) / 2
    decides = half + (found.beyond or 0.0) + 3 * (found.sampling or 0.0)
    assert decides > half
    assert f"known to +-{half:.1f} um" in asked.do
    assert f"a spread under +-{nearest * half / decides:.1f} um would settle it" in asked.do
    for way in ("more often", "finer instrument", "setting ring", "measure the part more finely"):
        assert way in asked.do


def test_a_sheet_read_three_point_only_is_told_first_that_it_cannot_show_an_oval_bore() -> None:
    text = (CASES / "proceed/orchard-2052.yaml").read_text(encoding="utf-8").partition("\nexpect:")[0]
    gauges = ("instrument: two", "gauges:", "kind: go", "kind: no_go")
    kept = [line for line in text.splitlines() if not any(each in line for each in gauges)]
    advice = advise(case_in(read_text("\n".join(kept), "three-point.yaml")), book())
    for side in advice.sides.values():
        (text,) = [each.text for each in side.stopped_by if each.rule == "evidence.ovality-not-seen"]
        assert text.startswith("Readings cannot show an oval bore: not settled, bound on ovality")


def test_what_nobody_looked_for_gets_no_advice_as_if_it_had_been_found() -> None:
    advice = changed("proceed/orchard-2052", "shell_outside: eye", "shell_outside: unknown")
    scratch = [each for each in advice.cautions if "damage.lacquer-scratch" in each.because]
    assert [each.id for each in scratch] == ["damage.lacquer-scratch"]
    assert "not looked at: shell outside" in scratch[0].text
    seen = changed("proceed/orchard-2052", "signs: []", "signs: [{sign: lacquer_scratch, where: shell_outside}]")
    assert "watch-the-scratch" in {each.id for each in seen.cautions}


@pytest.mark.parametrize("case", ["proceed/orchard-2052", "measure_again/anvil-2072", "refuse/kiln-2014"])
def test_the_advice_carries_the_sizes_of_the_standard_and_a_step_for_every_size_shown(case: str) -> None:
    advice = advised(case)
    for name, side in advice.sides.items():
        standard = book().standards[str(advice.frame.facts["frame.standard"].word)]
        assert standard.bore is not None
        told, sizes = side.conformity, standard.bore
        assert (told.nominal, told.lower, told.upper) == (sizes.nominal, sizes.lower, sizes.upper)
        for fact in ("bore.mouth_diameter", "bore.inner_diameter", "bore.widest_diameter"):
            walked = [node.id for node in advice.trace.walk(f"{name}/{fact}")]
            assert any(each.startswith("case:sides") for each in walked)


def test_limits_that_bind_a_diameter_stand_in_the_trace_with_their_meaning() -> None:
    advice = advised("proceed/lane-2041")
    bound = [side.make.bound_by for side in advice.sides.values() if side.make is not None]
    named = [each for ends in bound for each in ends or ()]
    assert named
    for limit in named:
        node = advice.trace.nodes[f"limit:{limit}"]
        assert isinstance(node, LimitUsed)
        assert node.meaning == book().limits[limit].meaning

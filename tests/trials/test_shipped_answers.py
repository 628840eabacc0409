"""What the shipped rules say on shipped cases and small changes of them, where a reader could be misled."""

from functools import cache
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import case_in, load_case
from recommender.deciding.answer import Advice, CauseShown
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

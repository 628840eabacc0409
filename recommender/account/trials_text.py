"""What became of cases that say what they expect, one line each, misses explained."""

from collections.abc import Sequence

from recommender.account.lines import BLANK, Line, row, wrapped
from recommender.trials.expected import Missed
from recommender.trials.run_cases import CaseResult


def trial_lines(results: Sequence[CaseResult]) -> list[Line]:
    """Return one line for each case, what was missed under it, and a summary."""
    return [*(line for each in results for line in _result(each)), BLANK, *wrapped(_summary(results))]


def _result(result: CaseResult) -> list[Line]:
    return [
        Line(_head(result), "plain" if result.met else "heading"),
        *(line for each in result.missed for line in _missed(each)),
        *(Line(text) for each in result.flaws for text in str(each).splitlines()),
    ]


def _head(result: CaseResult) -> str:
    return f"{_word(result):<6} {result.path}: {result.verdict or 'not judged'}"


def _word(result: CaseResult) -> str:
    if not result.met:
        return "MISSED"
    return "met" if result.expects else "no exp"


def _missed(missed: Missed) -> list[Line]:
    return [
        *wrapped(f"{missed.about}: expected {missed.expected}, found {missed.found}", "       ", "         "),
        *row("because", missed.reason, 9),
    ]


def _summary(results: Sequence[CaseResult]) -> str:
    if not results:
        return "no cases found"
    tried = [each for each in results if each.expects]
    lost = sum(not each.met for each in results)
    left = len(results) - len(tried)
    without = f", {left} without expectations" if left else ""
    cases = "1 case" if len(results) == 1 else f"{len(results)} cases"
    return f"{cases}: {len(tried) - lost} as expected, {lost} missed{without}"

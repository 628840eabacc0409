"""The summary of many judged cases in words: verdicts, commonest reasons, questions open, signs of damage."""

from collections import Counter

from recommender.account.lines import BLANK, Line, bullets, heading, row, wrapped
from recommender.account.stop_riding import FALLBACK, notice, stopping
from recommender.trials.many_summary import Summary

MOST_SHOWN = 8


def summary_lines(summary: Summary, notice_text: str = FALLBACK) -> list[Line]:
    """Return the summary of a sweep, with the stop-riding notice where cases not judged show a stopping sign."""
    return [
        *wrapped(_counted(summary), weight="heading"),
        *(line for verdict, count in _ranked(summary.verdicts) for line in row(verdict, str(count))),
        *_section("What stopped sides, by the number of cases", summary.reasons),
        *_section("What is open, by the number of cases", summary.questions),
        *_signs(summary, notice_text),
    ]


def _counted(summary: Summary) -> str:
    judged = summary.cases - summary.not_judged
    left = f", {summary.not_judged} could not be judged (see their lines)" if summary.not_judged else ""
    return f"{summary.cases} case{'' if summary.cases == 1 else 's'}: {judged} judged{left}"


def _section(title: str, counted: Counter[str]) -> list[Line]:
    ranked = _ranked(counted)
    if not ranked:
        return []
    shown = [f"{count}: {name}" for name, count in ranked[:MOST_SHOWN]]
    more = [f"and {len(ranked) - MOST_SHOWN} more"] if len(ranked) > MOST_SHOWN else []
    return [*heading(title), *bullets([*shown, *more])]


def _ranked(counted: Counter[str]) -> list[tuple[str, int]]:
    return sorted(counted.items(), key=lambda each: (-each[1], each[0]))


def _signs(summary: Summary, text: str) -> list[Line]:
    named = [f"{source}: {', '.join(found)}" for source, signs in summary.signs if (found := stopping(signs))]
    if not named:
        return []
    more = summary.with_signs - len(summary.signs)
    also = [f"and {more} more cases that name signs of damage"] if more else []
    lead = notice(text, "cases that could not be judged", "signs of damage are noted in them")
    return [BLANK, *lead[:-1], *bullets([*named, *also])]

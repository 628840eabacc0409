"""The uncertainty budget of each side as a table, and what the instruments can decide there."""

from collections.abc import Mapping, Sequence
from math import isinf

from recommender.account.lines import BLANK, Line, heading, wrapped
from recommender.account.words import SIDES
from recommender.asking.side_budgets import BoreBudget
from recommender.deriving.derived import SideName
from recommender.ground.quantity import show
from recommender.metrology.side_budget import Capability
from recommender.metrology.side_budget import Line as Source

UM = 1000.0
LEAST_TOLD = 5e-6
NAME, TOOL = 26, 13
MANY = 9999
COLUMNS = ("contribution", "instrument", "form", "u", "times", "adds", "dof")
SHORT = {"normal": "normal", "rectangular": "rect."}


def budget_lines(case: str, budgets: Mapping[SideName, BoreBudget]) -> list[Line]:
    """Return the budget of the mean diameter of every side that was read, in lines of 80 columns."""
    if not budgets:
        return wrapped(f"{case}: no side was read, so there is no budget.")
    return [
        *wrapped(f"{case}: uncertainty of the mean diameter over the seat at 20 degC, in um."),
        *(line for side, found in budgets.items() for line in _side(side, found)),
        BLANK,
        *wrapped("u: standard uncertainty of the source. times: how strongly it moves the mean. adds: u of the mean "
                 "from it alone; these add up in squares. dof: degrees of freedom, any where u is taken as known. "
                 f"What adds under {LEAST_TOLD * UM:.3f} um is left out. form: rect. for a rectangular distribution."),
    ]


def _side(side: str, found: BoreBudget) -> list[Line]:
    budget = found.budget
    told = [each for each in budget.lines if each.share >= LEAST_TOLD]
    return [
        *heading(f"{SIDES[side].upper()}: mean {show(budget.value, 'mm')} +-{show(UM * budget.expanded, 'um')} (95 %)"),
        _row(COLUMNS),
        *(_source(each) for each in sorted(told, key=lambda each: -each.share)),
        _row(("together", "", "", "", "", _number(budget.u), _degrees(budget.degrees))),
        *wrapped(f"Expanded by {budget.factor:.2f} for 95 %: +-{show(UM * budget.expanded, 'um')}.", "  "),
        *_capabilities(found),
    ]


def _source(source: Source) -> Line:
    return _row((source.name, source.instrument, SHORT[source.distribution], _number(source.u),
                 f"{source.sensitivity:.2f}", _number(source.share), _degrees(source.degrees)))


def _row(cells: Sequence[str]) -> Line:
    name, tool, form, u, times, adds, dof = cells
    shown = tool if len(tool) < TOOL else f"{tool[: TOOL - 3]}.."
    text = f"  {name:<{NAME}} {shown:<{TOOL}}{form:<7}{u:>7}{times:>7}{adds:>7}{dof:>6}"
    return Line(text.rstrip())


def _capabilities(found: BoreBudget) -> list[Line]:
    if found.together is None:
        return wrapped("The standard publishes no two limits, so nothing is said of what can be decided.", "  ")
    alone = [(f"{name} alone", each) for name, each in found.by_instrument.items()]
    return [line for name, each in [("All readings", found.together), *(alone if len(alone) > 1 else [])]
            for line in wrapped(_capability(name, each), "  ")]


def _capability(name: str, found: Capability) -> str:
    if not found.decides:
        return f"{name}: cannot decide this bore; no mean inside the limits could be proved to conform."
    return (f"{name}: a mean in the middle {show(UM * found.provable, 'um')} of the limits can be proved to conform; "
            f"band over 4 u is {found.ratio:.1f}.")


def _number(value: float) -> str:
    return f"{UM * value:.2f}"


def _degrees(degrees: float) -> str:
    return "any" if isinf(degrees) else f"{degrees:.0f}" if degrees < MANY else f">{MANY}"

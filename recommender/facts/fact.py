"""What the catalogue says of one fact."""

from typing import Literal, NamedTuple

Scope = Literal["frame", "side", "option"]
Kind = Literal["number", "word", "flag"]
SettledBy = Literal["reading", "inspection", "part", "soak", "load_test", "papers", "rare_tool", "nothing_here"]

REFERENCE = "20 degC"
SCOPE_ORDER: dict[Scope, int] = {"frame": 0, "side": 1, "option": 2}
BENCH_CAN_SETTLE: frozenset[SettledBy] = frozenset({"reading", "inspection", "part", "soak", "load_test", "papers"})


class Fact(NamedTuple):
    """One named value the rules may ask about.

    `name` is the phrase people read instead of the id; `meaning` the full sentence. Numbers have a `unit` and a
    physical `span`; words have the list of `words` they may take. `made_by` says who measures it or which formula
    derives it, `source` where that formula comes from. `settled_by` says what closes the question when it is
    open, `settle` how, in words for the bench. `conformity` facts may be read but never asked by a rule. What
    `by_grid` facts are is answered by a grid of the rule files, which also states their words.
    """

    id: str
    scope: Scope
    kind: Kind
    name: str
    meaning: str
    made_by: str
    settled_by: SettledBy
    settle: str
    unit: str = "1"
    span: tuple[float, float] | None = None
    words: tuple[str, ...] = ()
    source: str = "definition"
    conformity: bool = False
    by_grid: bool = False

    @property
    def bench_can_settle(self) -> bool:
        """Return whether the bench itself can close the question, by measuring, looking or testing."""
        return self.settled_by in BENCH_CAN_SETTLE

    @property
    def valid_at(self) -> str | None:
        """Return the temperature a diameter is valid at, as its name says; None for everything else."""
        return REFERENCE if self.name.endswith(f"at {REFERENCE}") else None


def places_shown(unit: str) -> int:
    """Return the decimals a number of this unit is rounded to before any rule sees it: 0.01 um for lengths."""
    return {"mm": 5, "um": 2}.get(unit, 4)

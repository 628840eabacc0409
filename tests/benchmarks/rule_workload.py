"""Rules and cases made by chance from a fixed seed, for evaluators side by side: 80 facts, 2 to 5 to a rule.

Every fact is known exactly, because general engines know no intervals; ours carries its three outcomes all the same.
"""

import random
from collections.abc import Callable
from typing import Any, NamedTuple

from recommender.facts.fact import Fact, Kind
from recommender.facts.value import FactValue
from recommender.ground.place import whole_file
from recommender.logic.board import Board
from recommender.logic.conditions import Condition, Group, Leaf, Operand

HERE = whole_file("generated")
WORDS = ("alloy", "steel", "carbon", "titanium", "threaded", "pressed")
SEED = 20240501
OURS = {"<": "below", "<=": "at_most", ">": "above", ">=": "at_least"}
KINDS: dict[str, Kind] = {"float": "number", "int": "number", "str": "word", "bool": "flag"}
Case = dict[str, Any]
FACTS = [(f"{kind[0]}{number:02d}", kind) for kind, count in (("float", 56), ("int", 8), ("str", 8), ("bool", 8))
         for number in range(count)]  # fmt: skip


class Comparison(NamedTuple):
    """One fact, an operator and what it is compared with."""

    fact: str
    op: str
    wanted: Any

    def holds(self, case: Case) -> bool:
        found, wanted = case[self.fact], self.wanted
        return bool({"<": found < wanted, "<=": found <= wanted, ">": found > wanted, ">=": found >= wanted,
                     "==": found == wanted, "!=": found != wanted}[self.op])  # fmt: skip


def make_rules(count: int) -> list[list[Comparison]]:
    chance = random.Random(SEED)
    return [[_comparison(*each, chance) for each in chance.sample(FACTS, chance.randint(2, 5))] for _ in range(count)]


def _comparison(name: str, kind: str, chance: random.Random) -> Comparison:
    share = chance.uniform(0.15, 0.85)
    if kind == "bool":
        return Comparison(name, "==", chance.random() < 0.5)
    if kind == "str":
        return Comparison(name, chance.choice(["==", "!="]), chance.choice(WORDS))
    op = chance.choice(["<", "<=", ">", ">="])
    passing = share if op[0] == "<" else 1 - share
    return Comparison(name, op, round(-50 + 100 * passing, 3) if kind == "float" else round(12 * passing))


def make_cases(count: int) -> list[Case]:
    chance = random.Random(7)
    made: dict[str, Callable[[], Any]] = {
        "float": lambda: round(chance.uniform(-50, 50), 3), "int": lambda: chance.randint(0, 12),
        "str": lambda: chance.choice(WORDS), "bool": lambda: chance.random() < 0.5,
    }  # fmt: skip
    return [{name: made[kind]() for name, kind in FACTS} for _ in range(count)]


def holding(rules: list[list[Comparison]], case: Case) -> list[int]:
    """Return which rules hold, by the plainest way there is."""
    return [number for number, rule in enumerate(rules) if all(each.holds(case) for each in rule)]


class Ours:
    """The compiled conditions, every leaf marked; returns marks and what holds."""

    def __init__(self, rules: list[list[Comparison]]) -> None:
        facts = {name: Fact(name, "side", KINDS[kind], name, name, "", "reading", "") for name, kind in FACTS}
        self.board = Board([Group("every", tuple(_ours(each, facts) for each in rule), HERE) for rule in rules])

    def ready(self, case: Case) -> dict[str, FactValue]:
        return {name: FactValue(name, word=found) if isinstance(found, str | bool)
                else FactValue(name, found, found, found) for name, found in case.items()}  # fmt: skip

    def run(self, cases: list[dict[str, FactValue]]) -> list[tuple[int, list[int]]]:
        mark, held = self.board.mark, self.board.holding
        return [(marks, held(marks)) for marks in map(mark, cases)]


def _ours(each: Comparison, facts: dict[str, Fact]) -> Condition:
    wanted = (Operand(each.wanted, None, str(each.wanted)),)
    if each.op in OURS:
        return Leaf(facts[each.fact], OURS[each.op], wanted, HERE)  # type: ignore[arg-type]
    leaf = Leaf(facts[each.fact], "equals", wanted, HERE)
    return leaf if each.op == "==" else Group("none_of", (leaf,), HERE)


class General:
    """The fastest general-purpose engine found (zen-engine, Rust): one compiled list of all rules, no trace."""

    def __init__(self, rules: list[list[Comparison]]) -> None:
        import zen

        told = (" and ".join(f"{each.fact} {each.op} {_spelt(each.wanted)}" for each in rule) for rule in rules)
        self._compiled = zen.compile_expression(f"[{', '.join(told)}]")

    def run(self, cases: list[Case]) -> list[list[int]]:
        evaluate = self._compiled.evaluate
        return [[number for number, held in enumerate(evaluate(case)) if held] for case in cases]


def _spelt(wanted: Any) -> str:
    return str(wanted).lower() if isinstance(wanted, bool) else repr(wanted)

from collections.abc import Callable
from typing import Any

import pytest

from recommender.facts.fact import Fact
from recommender.ground.place import whole_file
from recommender.logic.conditions import Leaf, Operand

GAP = Fact("gap", "side", "number", "gap", "A gap.", "measured", "reading", "measure it", "um", (-100.0, 100.0))


@pytest.fixture
def leaf() -> Callable[..., Leaf]:
    def make(op: Any, *wanted: float | str | bool, fact: Fact = GAP) -> Leaf:
        operands = tuple(Operand(each, None, f"{each} um" if fact is GAP else str(each)) for each in wanted)
        return Leaf(fact, op, operands, whole_file("rules.yaml"))

    return make

"""Records of earlier formats brought to the present one, one step for each number."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.records.compact import with_tables

CURRENT = 2
PREFIX = "borewright/record/"
Data = dict[str, Any]
Steps = Mapping[int, Callable[[Data], Data]]
STEPS: Steps = {1: with_tables}


def upgraded(data: Any, shown: str, steps: Steps = STEPS, current: int = CURRENT) -> Data:
    """Return the data of a record in the present format; `steps` maps a number to what makes the next one of it.

    Raises Flawed when the format is none of ours or comes from a later version.
    """
    number = _number(data)
    if number is None or number < 1:
        raise Flawed([_flaw(shown, "this file does not say that it is a record", "Name a file that was kept.")])
    if number > current:
        message = f"this record has format {number}; this version reads formats up to {current}"
        raise Flawed([_flaw(shown, message, "Read it with the version that wrote it, or a later one.")])
    for step in range(number, current):
        data = {**steps[step](data), "format": f"{PREFIX}{step + 1}"}
    return dict(data)


def _number(data: Any) -> int | None:
    said = data.get("format") if isinstance(data, dict) else None
    match = re.fullmatch(rf"{PREFIX}([0-9]{{1,6}})", said) if isinstance(said, str) else None
    return int(match[1]) if match else None


def _flaw(shown: str, message: str, advice: str) -> Flaw:
    return Flaw("record.format", whole_file(shown), message, advice)

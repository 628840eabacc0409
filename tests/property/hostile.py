"""Strategies for case, rule and house files: good ones with a few pieces in the wrong place, and anything at all."""

import json
from copy import deepcopy
from typing import Any

from hypothesis import strategies as st

Path = tuple[str | int, ...]

NUMBERS = [0, -1, 1, 1e308, -1e308, 5e-324, 1e-9, 2**53, 1_000_000_000, 0.1, 45.972, 46.01]
QUANTITIES = ["0 mm", "-1 mm", "1e9 mm", "1e-9 mm", "45.972 mm", "1000 um", "1e-9 um", "4 um", "20 degC", "-273 degC",
              "1e9 degC", "3 arcmin", "1e9 arcmin", "250 N", "1e9 N", "0 N", "1 K", "90 deg", "3 in", "5"]  # fmt: skip
WORDS = ["", " ", "unknown", "none", "null", "carbon", "steel", "pf30", "crack", "drive", "every", "2026-05-04",
         "0001-01-01", "9999-12-31", "a" * 300, "{fact}", "{", "\U0001f6b2", "-", "above", "mm", "um"]  # fmt: skip

scalars = st.one_of(
    st.none(), st.booleans(), st.sampled_from(NUMBERS), st.sampled_from(QUANTITIES), st.sampled_from(WORDS),
    st.floats(allow_nan=False, allow_infinity=False), st.integers(-(10**12), 10**12),
    st.text(st.characters(codec="utf-8"), max_size=8),
)  # fmt: skip
anything = st.recursive(
    scalars, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(WORDS[2:]), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip
garbage = st.dictionaries(st.text(min_size=1, max_size=8) | st.sampled_from(["rules", "limits", "case"]), anything)


def paths(data: Any, here: Path = ()) -> list[Path]:
    """Return the path of every piece of some data, itself excepted."""
    steps = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [each for key, inner in steps for each in [(*here, key), *paths(inner, (*here, key))]]


def piece(data: Any, path: Path) -> Any:
    """Return what stands at a path."""
    for step in path:
        data = data[step]
    return data


@st.composite
def nearly(draw: st.DrawFn, wholes: list[dict[str, Any]], most: int = 3) -> dict[str, Any]:
    """Return one of some good files with a few pieces replaced, taken out, moved or written twice."""
    data = deepcopy(draw(st.sampled_from(wholes)))
    for _ in range(draw(st.integers(0, most))):
        known = paths(data)
        if not known:
            break
        path = draw(st.sampled_from(known))
        _edit(draw, piece(data, path[:-1]), path[-1], data, known)
    return data


def _edit(draw: st.DrawFn, holder: Any, key: Any, data: Any, known: list[Path]) -> None:
    how = draw(st.sampled_from(["scalar", "scalar", "anything", "gone", "other", "twice", "more"]))
    if how == "gone":
        del holder[key]
    elif how == "other":
        holder[key] = deepcopy(piece(data, draw(st.sampled_from(known))))
    elif how == "twice" and isinstance(holder, list):
        holder.insert(key, deepcopy(holder[key]))
    elif how == "more" and isinstance(holder, dict):
        holder[draw(st.sampled_from(WORDS[2:]))] = draw(anything)
    else:
        holder[key] = draw(scalars if how == "scalar" else anything)


def as_text(data: dict[str, Any]) -> str:
    """Return data as a file in which every text is in quotes; what cannot be written so is left to the reader."""
    return "".join(f"{json.dumps(str(key))}: {json.dumps(value, default=str)}\n" for key, value in data.items())

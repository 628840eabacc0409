"""What another rule book would have decided, as lines to read and as plain data."""

from collections.abc import Iterable
from typing import Any

from recommender.account.lines import BLANK, Line, bullets, section, wrapped
from recommender.account.words import fact_name
from recommender.deciding.milder import Direction
from recommender.ground.quantity import show
from recommender.trials.compare import Comparison, Moved
from recommender.trials.flips import Flip

GROUPS: tuple[tuple[Direction, str], ...] = (
    ("milder", "MILDER"), ("stricter", "STRICTER"), ("other_remedy", "ANOTHER REMEDY"),
)  # fmt: skip
NO_FLIP = "no check flipped: what there is to choose from, or how it is sized, differs"


def comparison_lines(found: Comparison) -> list[Line]:
    """Return what moved, milder first, each with the check that flipped, then what could not be judged."""
    return [
        *(line for direction, title in GROUPS for line in _group(found, direction, title)),
        *section("NOT JUDGED", [line for name, flaws in found.unjudged for line in _unjudged(name, flaws)]),
        BLANK,
        *wrapped(summary(found)),
        *_unaccepted(found),
    ]


def summary(found: Comparison) -> str:
    """Return in one sentence how many frames were compared and how many of them moved which way."""
    frames = "1 frame" if found.frames == 1 else f"{found.frames} frames"
    counted = [f"{len(_cases(found.of(direction)))} {title.casefold()}" for direction, title in GROUPS]
    left = f", {len(found.unjudged)} not judged" if found.unjudged else ""
    return f"{frames} compared: {', '.join(counted)}{left}."


def comparison_data(found: Comparison) -> dict[str, Any]:
    """Return the comparison as plain data."""
    groups: dict[str, Any] = {direction: [_plain(each) for each in found.of(direction)] for direction, _ in GROUPS}
    unjudged = [{"case": name, "flaws": [str(each) for each in flaws]} for name, flaws in found.unjudged]
    return {"frames": found.frames, **groups, "unjudged": unjudged, "unaccepted": list(found.unaccepted)}


def flip_text(flip: Flip) -> str:
    """Return a flipped check in words, with its margin by either book."""
    if "no such rule" in (flip.before, flip.after):
        known, margin = ("new", flip.margin_after) if flip.before == "no such rule" else ("gone", flip.margin_before)
        by = "" if margin is None else f", by {_signed(margin, flip.unit)}"
        outcome = flip.after if known == "new" else flip.before
        return f"{flip.rule} ({known}): {fact_name(flip.fact)} {flip.wanted} {outcome}{by}"
    told = f"{flip.rule}: {fact_name(flip.fact)} {flip.wanted} {flip.before} -> {flip.after}"
    if flip.margin_before is None or flip.margin_after is None:
        return told
    return f"{told}, margin {_signed(flip.margin_before, flip.unit)} -> {_signed(flip.margin_after, flip.unit)}"


def _group(found: Comparison, direction: Direction, title: str) -> list[Line]:
    return section(title, [line for each in found.of(direction) for line in _moved(each)])


def _moved(moved: Moved) -> list[Line]:
    change = moved.change
    before, after = (each.replace("_", " ") for each in (change.before, change.after))
    head = f"{moved.case}, {change.where}: {before} -> {after}"
    return [*wrapped(head, "  ", "    "), *wrapped(flip_text(moved.flip) if moved.flip else NO_FLIP, "      ")]


def _unjudged(name: str, flaws: Iterable[object]) -> list[Line]:
    return [*wrapped(name, "  "), *(Line(f"    {line}") for each in flaws for line in str(each).splitlines())]


def _unaccepted(found: Comparison) -> list[Line]:
    if not found.unaccepted:
        return []
    told = "Milder, and not named under `accepts` of a house act: look at each of these cases, then name it there."
    return [*wrapped(told, weight="notice"), *bullets(found.unaccepted)]


def _signed(margin: float, unit: str) -> str:
    return f"{'+' if margin > 0 else ''}{show(margin, unit)}"


def _cases(moved: Iterable[Moved]) -> list[str]:
    return list(dict.fromkeys(each.case for each in moved))


def _plain(moved: Moved) -> dict[str, Any]:
    flip = None if moved.flip is None else moved.flip._asdict()
    change = moved.change
    return {"case": moved.case, "where": change.where, "before": change.before, "after": change.after, "flip": flip}

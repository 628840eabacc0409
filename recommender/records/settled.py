"""What a second round of readings settled: questions that are gone, verdicts that changed, facts known more closely."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from recommender.records.difference import Change, changed, facts_of, verdicts_of


class Settled(NamedTuple):
    """What became clearer from one advice to the next, and what is open now that was not before.

    `gone` and `opened` are questions in words, `known` facts that were unknown, `sharper` facts whose 95 % interval
    shrank visibly, most of it first, `wider` those whose interval grew. Facts are those of frame and sides; what holds
    of an option follows from them.
    """

    gone: tuple[str, ...]
    opened: tuple[str, ...]
    verdicts: tuple[Change, ...]
    known: tuple[Change, ...]
    sharper: tuple[Change, ...]
    wider: tuple[Change, ...]


def settled(before: Mapping[str, Any], after: Mapping[str, Any]) -> Settled:
    """Return what the readings between two stored advices of one frame settled."""
    asked, asks = (_questions(each) for each in (before, after))
    one, two = _measured(before), _measured(after)
    both = [key for key in sorted(one) if key in two]
    seen = (key for key in both if one[key]["shown"] != two[key]["shown"])
    shares = {key: share for key in seen if (share := _share(one[key], two[key])) is not None}
    return Settled(
        tuple(text for key, text in asked.items() if key not in asks),
        tuple(text for key, text in asks.items() if key not in asked),
        changed(verdicts_of(before), verdicts_of(after)),
        tuple(_shown(key, one, two) for key in both if "unknown" in one[key] and "unknown" not in two[key]),
        tuple(_shown(key, one, two) for key in sorted(shares, key=lambda key: (shares[key], key)) if shares[key] < 1.0),
        tuple(_shown(key, one, two) for key in shares if shares[key] > 1.0),
    )


def _measured(advice: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    return {key: found for key, found in facts_of(advice).items() if key.count("/") == 1}


def _questions(advice: Mapping[str, Any]) -> dict[tuple[str, str], str]:
    """Return the open questions by what they are about and where: another way of asking is the same question."""
    found: dict[tuple[str, str], str] = {}
    for each in advice["questions"]:
        where = each["side"] or "frame"
        found.setdefault((where, each["fact"] or each["do"]), f"{where}: {each['name']}: {each['do']}")
    return found


def _share(before: Mapping[str, Any], after: Mapping[str, Any]) -> float | None:
    """Return the width of an interval now as a share of what it was; None where there was no interval."""
    widths = [_width(each) for each in (before, after)]
    if widths[0] is None or widths[1] is None:
        return None
    return widths[1] / widths[0] if widths[0] else 1.0 if widths[1] == 0.0 else float("inf")


def _width(found: Mapping[str, Any]) -> float | None:
    low, high = found.get("low"), found.get("high")
    return None if low is None or high is None else round(high - low, 6)


def _shown(key: str, before: Mapping[str, Mapping[str, Any]], after: Mapping[str, Mapping[str, Any]]) -> Change:
    return Change(key, before[key]["shown"], after[key]["shown"])

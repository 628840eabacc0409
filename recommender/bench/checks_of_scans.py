"""Checks of scanned sections: too few points, not all round, no bore, a point far off."""

from collections.abc import Iterator
from typing import Any

from recommender.bench import pieces
from recommender.bench.scans import FEWEST, WIDEST_GAP, ScanPoints, roundabout, scans
from recommender.bench.traps import BORE, FAR_OFF, length_trap
from recommender.bench.trouble import Trouble

MOST_SECTIONS = 60
ROUND = "Scan all the way round, or strike this depth with a reason under `struck`."


def how_many(data: Any) -> Iterator[Trouble]:
    """Yield sides with more scanned sections than can be weighed against each other."""
    count: dict[str, int] = {}
    for block in pieces.blocks(data):
        scanned = (*(block.readings.scan or {}), *(block.readings.points or {}))
        count[block.side] = count.get(block.side, 0) + len(scanned)
    for side, found in count.items():
        if found > MOST_SECTIONS:
            yield Trouble(
                "case.many", ("sides", side, "readings"),
                f"{found} scanned sections on one side; at most {MOST_SECTIONS} are weighed together",
                "Keep every second or third section.",
            )  # fmt: skip


def sections(data: Any) -> Iterator[Trouble]:
    """Yield sections that cannot be fitted: the first thing wrong with each."""
    for block in pieces.blocks(data):
        for section in scans(block.readings, block.path):
            found = None if section.struck else _trouble(section)
            if found is not None:
                yield found


def _trouble(section: ScanPoints) -> Trouble | None:
    count, where = len(section.points), f"at depth {section.depth:g} mm"
    if count < FEWEST:
        return Trouble("case.scan", section.path, f"{count} points {where}; a scan has at least {FEWEST}", ROUND)
    made = roundabout(section.points)
    trap = length_trap(made.diameter, BORE)
    if trap is not None:
        return Trouble("case.unit", section.path, f"points {where} as a circle: {trap[0]}", trap[1])
    if made.gap > WIDEST_GAP:
        return Trouble("case.scan", section.path, f"{made.gap:.0f} degrees without a point {where}", ROUND)
    if made.farthest_off > FAR_OFF:
        return Trouble(
            "case.scan", section.path, f"a point {where} lies {made.farthest_off:.3f} mm off the others",
            "Look at the scan for dirt, a lost digit or two sections in one; scan again or strike this depth.",
        )  # fmt: skip
    return None

"""Everything checked in a case file before anything is computed."""

from collections.abc import Callable, Iterator
from typing import Any

from recommender.bench import checks_of_readings as sheet
from recommender.bench import checks_of_scans as scanned
from recommender.bench import checks_of_values as single
from recommender.bench.trouble import Trouble

CHECKS: tuple[Callable[[Any], Iterator[Trouble]], ...] = (
    single.units,
    single.temperatures,
    single.instrument_records,
    single.names,
    sheet.how_many,
    sheet.grids,
    sheet.depths,
    sheet.values,
    sheet.spans,
    scanned.how_many,
    scanned.sections,
    sheet.gauges,
)


def troubles(data: Any) -> list[Trouble]:
    """Return what every check finds in the raw data of a case; what cannot be used is passed over."""
    return [found for check in CHECKS for found in check(data)]

"""A threaded shell has no bore to press into: what asks about one does not apply to it."""

from recommender.deriving.collector import Collector
from recommender.facts.catalogue import CATALOGUE

WHY = "a threaded shell: nothing is pressed into it"
STAYS = ("damage.", "conformity.", "bore.cut_before", "side.name")
OF_FRAME = (
    "alignment.angle", "alignment.measured", "evidence.sides_difference", "evidence.temperature_gap",
    "evidence.temperature_off",
)  # fmt: skip


def leave_out_of_frame(made: Collector) -> None:
    """Keep that alignment of bores and temperature of reading do not apply."""
    for fact in OF_FRAME:
        made.not_applicable(fact, WHY, "frame.standard")


def leave_out_of_side(made: Collector) -> None:
    """Keep that bore, seat, fit and readings do not apply; damage and an earlier cut do."""
    for fact in CATALOGUE.values():
        if fact.scope == "side" and not fact.id.startswith(STAYS):
            made.not_applicable(fact.id, WHY, "frame.standard")

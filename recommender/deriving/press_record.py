"""What the force of the last pressing tells of the bore."""


from recommender.bench.case import Case
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.frame import bore_material
from recommender.deriving.grip import friction_pair
from recommender.deriving.measured import MeasuredLog
from recommender.mechanics.amount import middle
from recommender.mechanics.grip import pressure_from_push_in
from recommender.metrology.draws import Draws
from recommender.rulebook.book import Rulebook

ANY = ("polymer", "aluminium")
ENDS = ("greased_least", "dry_most")


def press_record_fact(case: Case, name: SideName, book: Rulebook, draws: Draws | None, log: MeasuredLog,
                      made: Collector) -> None:
    """Derive the pressure that a measured press force speaks of; how the seat was lubricated is not known."""
    side = getattr(case.sides, name)
    force = side.press.force
    if force is None or draws is None:
        made.unknown("grip.pressed_with", "the force of the last pressing was not measured, or the bore was not read")
        return
    noted = log.keep(("sides", name, "press", "force"), "force of the last pressing", f"{force.value:g} N")
    pairs = [friction_pair(each, bore_material(case)) for each in sorted(materials_before(case, name))]
    limits = [f"{pair}.{end}" for pair in pairs for end in ENDS]
    values = [book.limits[each].value for each in limits]
    least, most = min(values), max(values)
    diameter, length = middle(draws.mean), draws.depth
    low, high = (float(pressure_from_push_in(force.value, each, diameter, length)) for each in (most, least))
    made.between("grip.pressed_with", (low + high) / 2, low, high, noted, *(f"limit:{each}" for each in limits))


def materials_before(case: Case, name: SideName) -> set[str]:
    """Return what the last part of a side may have been made of."""
    return {cup.material for cup in case.history.cups or () if cup.side in (name, None)} & set(ANY) or set(ANY)

"""One side of the answer: verdict, part, sizes to make, and the numbers behind it."""

from collections.abc import Mapping

from recommender.account.finding_text import short
from recommender.account.limit_words import limit_meaning
from recommender.account.lines import Line, heading, row
from recommender.account.numbers import between, size, turned, with_interval
from recommender.account.stoppers import farthest, stoppers
from recommender.account.words import SIDES, capital, lower, readable, side_verdict, stop
from recommender.deciding.answer import Advice, BearingShown, Found, LandShown, MakeShown, OptionShown, SideShown
from recommender.deciding.trace import Trace
from recommender.ground.quantity import show

BORE = {
    "bore.mean_diameter": "mean",
    "bore.inscribed_diameter": "tightest",
    "bore.ovality": "oval",
    "bore.taper": "taper",
}
SEEN_BY = {"bore.ovality": "evidence.ovality_seen", "bore.taper": "evidence.taper_seen"}
FIT = {"fit.mean_interference": "mean", "fit.tightest_interference": "tightest"}
SLEEVE = {"od_mm": "outside", "id_mm": "inside", "wall_mm": "wall", "bond_line_mm": "bond line"}
NOT_RELEASED = "Not released: nothing is cut, glued or pressed yet."
HELD = "This side could be fitted by itself; the frame as a whole may not be pressed."
MOST_REASONS = 2
UNKNOWN = "unknown"
NO_TRACE = Trace({})
WINDOW = "make.window_width"
MIND = "to mind"


def side_lines(advice: Advice, name: str) -> list[Line]:
    """Return everything the answer says of one side, but for conformity."""
    side = side_of(advice, name)
    return [
        *heading(f"{SIDES[name].upper()}: {side_verdict(advice, name)}"),
        *row("Why", _why(side)),
        *(line for text in disagreements(side) for line in row("Fit class", text)),
        *_work(side, advice.trace),
        *row("Bore, 20 degC", _numbers(side.facts, BORE)),
        *row("Interference", _interference(side)),
    ]


def side_of(advice: Advice, name: str) -> SideShown:
    """Return a side by its name; raises KeyError when there is no such side."""
    return {str(key): each for key, each in advice.sides.items()}[name]


def chosen(side: SideShown) -> OptionShown | None:
    """Return the option behind the remedy of a side, None where there is none."""
    if side.make is None:
        return None
    options = [each for remedy in side.remedies if remedy.id == side.remedy for each in remedy.options]
    return next((each for each in options if each.part == side.make.part), None)


def _why(side: SideShown) -> str:
    if side.verdict == "held":
        return HELD
    if side.remedy is not None:
        return ""
    deciding = list(dict.fromkeys(stop(each.finding.text) for each in stoppers(side)))
    return " ".join(deciding[:MOST_REASONS]) if deciding else side.reason


def disagreements(side: SideShown) -> list[str]:
    """Return how fit class and physics disagree on the part to fit, or on those of a side for which none is left."""
    option = chosen(side)
    mine = [option] if option else [each for remedy in side.remedies for each in remedy.options if side.make is None]
    told = dict.fromkeys(each.disagreement for each in mine if each.outcome != "not_applicable")
    return [each for each in told if each]


def _work(side: SideShown, trace: Trace) -> list[Line]:
    make = side.make
    if make is None:
        return [line for text in no_room(side, trace) for line in row("No diameter", text)]
    before = " ".join(stop(capital(readable(each))) for each in make.before_work)
    sheet = f" {NOT_RELEASED}" if before and side.verdict != "held" else ""
    return [
        *row("Bearing", bearing_text(side.bearing)),
        *row("", kept_text(side.bearing)),
        *row("Fit", readable(make.part)),
        *row("Only", make.condition),
        *row("Compound", compound_text(make)),
        *(line for text in passed_over(side) for line in row("Not", text)),
        *make_lines(make, trace),
        *row("", beside_text(side)),
        *row("Press force", press_text(make)),
        *row("Before work", f"{before}{sheet}"),
    ]


def bearing_text(bearing: BearingShown | None) -> str:
    """Return the bearing as it is ordered, or as it lies there: designation, sizes, class and why no other class."""
    if bearing is None:
        return ""
    sizes = [bearing.d, bearing.D, bearing.B]
    known = " x ".join("?" if each is None else size(each) for each in sizes)
    clearance = f", clearance class {bearing.clearance_class}" if bearing.clearance_class else ""
    here = ", in hand" if bearing.in_hand else ""
    others = "".join(f"; not {each.name}: {each.why_not}" for each in bearing.classes[1:] if not bearing.in_hand)
    return f"{bearing.designation}, {known} mm{clearance}{here}{others}{_reducer(bearing)}"


def _reducer(bearing: BearingShown) -> str:
    """Return what a thinner spindle needs: a sleeve between, or a bearing of its own bore."""
    if bearing.reducer is None:
        return ""
    outside, bore = (size(each) for each in bearing.reducer)
    instead = f", or {' or '.join(bearing.bore_of_spindle)}" if bearing.bore_of_spindle else ""
    return f"; for the {bore} mm spindle with a reducing sleeve {outside} to {bore} mm{instead}"


def kept_text(bearing: BearingShown | None) -> str:
    """Return the clearance that the class in hand or to order keeps in the pressed bearing."""
    if bearing is None or not bearing.classes:
        return ""
    best = bearing.classes[0]
    return f"{best.name} keeps {between(best.left_um, 'um')} of clearance when pressed"


def compound_text(make: MakeShown) -> str:
    """Return the class of compound, the gaps it fills and the gap here, its activator and its cure."""
    found = make.compound
    if found is None:
        return ""
    needed = f"with its activator on {' and '.join(map(readable, found.activator_on))}" if found.activator_on else ""
    return (
        f"{lower(found.title)}, for a gap of {between(found.gap_mm)} on diameter (here {between(found.here_mm)}) "
        f"at {make.valid_at}; {needed or 'no activator on these surfaces'}; full strength after {found.cure_h:.0f} h"
    )


def press_text(make: MakeShown) -> str:
    """Return the force the press is forecast to need, by how the seat is lubricated."""
    told = [f"{between(force, 'N')} {how}" for how, force in sorted(make.press_forces.items(), reverse=True)]
    if told:
        return f"about {', '.join(told)}"
    return f"about {between(make.press_force, 'N')}" if make.press_force else ""


def passed_over(side: SideShown) -> list[str]:
    """Return the measured parts in hand the chosen remedy ruled out, each with what stopped it."""
    return [f"{readable(each.part)}: {stopped(each)[0]}" for each in barred_in_hand(side)]


def barred_in_hand(side: SideShown) -> list[OptionShown]:
    """Return the measured parts in hand the chosen remedy ruled out.

    None where the part to fit is itself one that was measured: then nobody wonders about the others.
    """
    option = chosen(side)
    if option is None or _measured(option):
        return []
    others = [each for remedy in side.remedies if remedy.id == side.remedy for each in remedy.options]
    return [each for each in others if each.outcome == "ruled_out" and _measured(each)]


def _measured(option: OptionShown) -> bool:
    found = option.facts.get("part.measured")
    return found is not None and found.word is True


def stopped(option: OptionShown) -> tuple[str, str]:
    """Return the number furthest past its limit among those that stopped an option, and its step in the trace.

    Numbers the rule's own sentence prints come first: another one may only tell which parts the rule is about.
    Without such a number, what stopped it.
    """
    bars = [each for each in option.findings if each.counts_as == "bars"]
    clearest = max(bars, key=farthest)
    numbers = [each for each in clearest.checks if each.margin is not None]
    if not numbers:
        return lower(short(clearest)), clearest.node
    printed = [each for each in numbers if each.found.shown in clearest.text]
    check = max(printed or numbers, key=lambda each: abs(each.spreads or 0.0))
    past = show(abs(check.margin or 0.0), check.unit or "")
    return f"{check.name} {with_interval(check.found)}, past the limit by {past}", check.node


def no_room(side: SideShown, trace: Trace) -> dict[str, str]:
    """Return why no cup can be turned for a side, and what would open its window, where nothing else bars it.

    Each text comes with the step of the trace it is from.
    """
    options = [each for remedy in side.remedies for each in remedy.options if _only_room_is_missing(each)]
    nearest: dict[str, OptionShown] = {}
    for each in sorted(options, key=_short_by):
        nearest.setdefault(each.part, each)
    return {text: each.node for each in nearest.values() for text in _collision(each, trace)}


def _short_by(option: OptionShown) -> float:
    return 0.0 if option.collision is None else option.collision.short_by


def _only_room_is_missing(option: OptionShown) -> bool:
    asked = {check.fact for each in option.findings if each.counts_as in ("bars", "asks") for check in each.checks}
    return option.collision is not None and asked <= {WINDOW}


def _collision(option: OptionShown, trace: Trace) -> list[str]:
    found = option.collision
    if found is None:
        return []
    opened = f"; what would open it: {'; '.join(found.openers)}" if found.openers else ""
    ends = " and the ".join(limit_meaning(each, trace) for each in (found.low_limit, found.high_limit))
    return [f"for {readable(option.part)}: {show(found.short_by, 'mm')} too little room between the {ends}{opened}"]


def make_lines(make: MakeShown, trace: Trace = NO_TRACE) -> list[Line]:
    """Return what a lathe or a reamer needs: diameters with tolerance, lands, sleeve sizes and the wall left."""
    at = f" at {make.valid_at}" if make.valid_at else ""
    whole = make.od_mm if len(make.lands) < 2 else None
    grade = f" ({make.grade})" if make.grade else ""
    lands = make.lands if len(make.lands) > 1 else ()
    return [
        *row("Turn OD to", f"{turned(whole)}{grade}{at}" if whole else ""),
        *(line for land in lands for line in row("Turn land", f"{_land(land)}{grade}{at}")),
        *row("All limits", window_text(make, trace)),
        *row("Lead-in", lead_in_text(make)),
        *row("Seat", seat_text(make)),
        *row("Ream bore to", f"{turned(make.bore_mm)}{at}" if make.bore_mm else ""),
        *row("Sleeve", f"{_sleeve(make)}{at}" if make.sleeve else ""),
        *row("Wall left", f"{make.wall_left:.2f} mm" if make.wall_left is not None else ""),
    ]


def lead_in_text(make: MakeShown) -> str:
    """Return the chamfer that starts the part: the diameter it starts at with its tolerance, and its length."""
    if make.lead_in is None:
        return ""
    within = f" +-{make.lead_in_within:.2f}" if make.lead_in_within else ""
    return f"from {make.lead_in[0]:.2f}{within} mm at {make.valid_at}, over {make.lead_in[1]:.2f} mm"


def seat_text(make: MakeShown) -> str:
    """Return the bearing seat to bore in a cup that is pressed without its bearing."""
    return f"{turned(make.seat_before)} at {make.valid_at}, if pressed without its bearing" if make.seat_before else ""


def _sleeve(make: MakeShown) -> str:
    return "; ".join(f"{SLEEVE.get(key, key)} {turned(band)}" for key, band in make.sleeve.items())


def _land(land: LandShown) -> str:
    return f"{size(land.start_mm)} to {size(land.end_mm)} mm from the face: OD {turned(land.od_mm)}"


def window_text(make: MakeShown, trace: Trace) -> str:
    """Return the measured diameters that every limit leaves, and the limits that bind them."""
    if make.window_mm is None or (make.condition and make.od_mm is None):
        return ""
    ends = " and by the ".join(limit_meaning(each, trace) for each in make.bound_by or ())
    bound = f", bound by the {ends}" if ends else ""
    within = f", measured within {show(make.measured_within, 'mm')}" if make.measured_within else ""
    return f"clear at an OD of {between(make.window_mm)} at {make.valid_at}{within}{bound}{_class_alone(make)}"


def _class_alone(make: MakeShown) -> str:
    """Return what the fit class by itself would leave where the physics leaves less: there the two disagree."""
    found = make.class_window_mm
    if found is None or make.window_mm is None or found == make.window_mm:
        return ""
    return f"; its fit class alone would leave {between(found)}"


def beside_text(side: SideShown) -> str:
    """Return that the measured part lies beside the diameters all limits leave, where it does."""
    option, make = chosen(side), side.make
    od = None if option is None or not _measured(option) else option.facts.get("part.od")
    if make is None or make.window_mm is None or od is None or od.value is None or not window_text(make, NO_TRACE):
        return ""
    low, high = make.window_mm
    if low <= od.value <= high:
        return ""
    part = f"{with_interval(od)} at {make.valid_at}"
    return f"the part in hand, {part}, lies beside that; what it leaves open stands under {MIND}"


def _interference(side: SideShown) -> str:
    option = chosen(side)
    return "" if option is None else _numbers(option.facts, FIT)


def _numbers(facts: Mapping[str, Found], wanted: Mapping[str, str]) -> str:
    told = [f"{name} {_number(key, facts)}" for key, name in wanted.items() if key in facts]
    return "; ".join(each for each in told if not each.endswith(UNKNOWN))


def _number(key: str, facts: Mapping[str, Found]) -> str:
    """Return a number with its interval; one that no reading saw is told as assumed, never as if it had been read."""
    found = facts[key]
    if found.unknown is not None:
        return UNKNOWN
    seen = facts.get(SEEN_BY.get(key, ""))
    if seen is None or seen.word is not False:
        return with_interval(found)
    return "not read" if found.low == found.high else f"{with_interval(found)}, assumed, not read"

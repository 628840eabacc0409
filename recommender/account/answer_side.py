"""One side of the answer: verdict, part, sizes to make, and the numbers behind it."""

from collections.abc import Mapping

from recommender.account.lines import Line, heading, row
from recommender.account.numbers import between, size, turned, with_interval
from recommender.account.stoppers import stoppers
from recommender.account.words import SIDES, capital, readable, side_verdict, stop
from recommender.deciding.answer import Advice, BearingShown, Found, LandShown, MakeShown, OptionShown, SideShown

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


def side_lines(advice: Advice, name: str) -> list[Line]:
    """Return everything the answer says of one side, but for conformity."""
    side = side_of(advice, name)
    return [
        *heading(f"{SIDES[name].upper()}: {side_verdict(advice, name)}"),
        *row("Why", _why(side)),
        *_work(side),
        *row("Bore", _numbers(side.facts, BORE)),
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


def _work(side: SideShown) -> list[Line]:
    make = side.make
    if make is None:
        return []
    before = " ".join(stop(capital(readable(each))) for each in make.before_work)
    sheet = f" {NOT_RELEASED}" if before and side.verdict != "held" else ""
    return [
        *row("Fit", readable(make.part)),
        *row("Only", make.condition),
        *row("Bearing", bearing_text(side.bearing)),
        *make_lines(make),
        *row("Press force", f"about {between(make.press_force, 'N')}" if make.press_force else ""),
        *row("Before work", f"{before}{sheet}"),
    ]


def bearing_text(bearing: BearingShown | None) -> str:
    """Return the bearing as it is ordered: designation, bore x outside x width, clearance class."""
    if bearing is None:
        return ""
    sizes = [bearing.d, bearing.D, bearing.B]
    known = " x ".join("?" if each is None else size(each) for each in sizes)
    clearance = f", clearance class {bearing.clearance_class}" if bearing.clearance_class else ""
    return f"{bearing.designation}, {known} mm{clearance}"


def make_lines(make: MakeShown) -> list[Line]:
    """Return what a lathe or a reamer needs: diameters with tolerance, lands, sleeve sizes and the wall left."""
    at = f" at {make.valid_at}" if make.valid_at else ""
    whole = make.od_mm if len(make.lands) < 2 else None
    lands = make.lands if len(make.lands) > 1 else ()
    return [
        *row("Turn OD to", f"{turned(whole)}{at}{_window(make)}" if whole else ""),
        *(line for land in lands for line in row("Turn land", f"{_land(land)}{at}")),
        *row("Ream bore to", f"{turned(make.bore_mm)}{at}" if make.bore_mm else ""),
        *row("Sleeve", "; ".join(f"{SLEEVE.get(key, key)} {turned(band)}" for key, band in make.sleeve.items())),
        *row("Wall left", f"{make.wall_left:.2f} mm" if make.wall_left is not None else ""),
    ]


def _land(land: LandShown) -> str:
    return f"{size(land.start_mm)} to {size(land.end_mm)} mm from the face: OD {turned(land.od_mm)}"


def _window(make: MakeShown) -> str:
    if make.window_mm is None:
        return ""
    bound = f", bound by {make.bound_by[0]} and {make.bound_by[1]}" if make.bound_by else ""
    return f" (limits leave {between(make.window_mm)}{bound})"


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

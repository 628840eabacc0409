"""One side of the answer: verdict, part, sizes to make, the numbers behind it, and conformity apart from the fit."""

from collections.abc import Mapping

from recommender.account.lines import Line, heading, row
from recommender.account.numbers import between, depth, size, turned
from recommender.account.words import CONFORMITY, SIDES, capital, side_verdict, stop
from recommender.deciding.answer import Advice, BearingShown, ConformityShown, Found, MakeShown, OptionShown, SideShown

BORE = {
    "bore.mean_diameter": "mean",
    "bore.inscribed_diameter": "tightest",
    "bore.ovality": "out-of-round",
    "bore.taper": "taper",
}
FIT = {"fit.mean_interference": "mean", "fit.tightest_interference": "at the tightest place"}
SLEEVE = {"od_mm": "outside", "id_mm": "inside", "wall_mm": "wall", "bond_line_mm": "bond line"}
NOT_RELEASED = "This sheet is not released: nothing is cut, glued or pressed yet."


def side_lines(advice: Advice, name: str) -> list[Line]:
    """Return everything the answer says of one side."""
    side = side_of(advice, name)
    return [
        *heading(f"{SIDES[name].upper()}: {side_verdict(advice, name)}"),
        *row("Why", _why(side)),
        *_work(side),
        *row("Bore", _numbers(side.facts, BORE)),
        *row("Interference", _interference(side)),
        *row("Standard", _conformity(side.conformity)),
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
        return "Nothing is wrong with this side by itself; the frame as a whole may not be pressed."
    if side.remedy is not None:
        return ""
    deciding = list(dict.fromkeys(each.text for each in side.stopped_by))
    return " ".join(deciding[:2]) if deciding else side.reason


def _work(side: SideShown) -> list[Line]:
    make = side.make
    if make is None:
        return []
    sheet = "" if make.released or side.verdict == "held" else NOT_RELEASED
    return [
        *row("Fit", _part(make)),
        *row("Only if", make.condition),
        *row("Bearing", bearing_text(side.bearing)),
        *make_lines(make),
        *row("Press force", f"about {between(make.press_force, 'N')}" if make.press_force else ""),
        *row("Before work", " ".join(stop(capital(each)) for each in make.before_work)),
        *row("", sheet),
    ]


def _part(make: MakeShown) -> str:
    return make.part.replace("_", " ")


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
    whole = make.od_mm is not None and len(make.lands) < 2
    return [
        *row("Turn OD to", f"{turned(make.od_mm)}{at}{_window(make)}" if whole and make.od_mm else ""),
        *(line for land in make.lands if len(make.lands) > 1 for line in row(
            "Turn land", f"{depth(land.start_mm)} to {depth(land.end_mm)} from the face: OD {turned(land.od_mm)}{at}")),
        *row("Ream bore to", f"{turned(make.bore_mm)}{at}" if make.bore_mm else ""),
        *row("Sleeve", "; ".join(f"{SLEEVE.get(key, key)} {turned(band)}" for key, band in make.sleeve.items())),
        *row("Wall left", f"{make.wall_left:.2f} mm" if make.wall_left is not None else ""),
    ]


def _window(make: MakeShown) -> str:
    if make.window_mm is None:
        return ""
    bound = f", bound by {make.bound_by[0]} and {make.bound_by[1]}" if make.bound_by else ""
    return f" (every limit is met from {between(make.window_mm)}{bound})"


def _interference(side: SideShown) -> str:
    option = chosen(side)
    if option is None:
        return ""
    numbers = _numbers(option.facts, FIT)
    return f"{numbers}; intervals at 95 %" if numbers else ""


def _numbers(facts: Mapping[str, Found], wanted: Mapping[str, str]) -> str:
    known = {key: facts[key] for key in wanted if key in facts}
    return "; ".join(f"{wanted[key]} {found.shown}" for key, found in known.items() if found.unknown is None)


def _conformity(shown: ConformityShown) -> str:
    parts = ((shown.size, "size"), (shown.envelope, "envelope"), (shown.form, "form"))
    said = "; ".join(f"{what} {CONFORMITY.get(word, word.replace('_', ' '))}" for word, what in parts)
    source = f" (limits: {shown.limit_source})" if shown.limit_source else ""
    return f"{said}{source}"

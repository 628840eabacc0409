"""What else a lathe needs of a part to be made: grade, lead-in, and the bearing seat before pressing."""


from recommender.deriving.derived import Make
from recommender.deriving.pressed import UM, Pressed
from recommender.mechanics.amount import middle
from recommender.mechanics.making import lead_in, seat_before, seat_closing
from recommender.rulebook.book import Rulebook


def finished(pressed: Pressed, make: Make) -> Make:
    """Return the part to be made with its grade, its chamfer and, for a cup, its bearing seat before pressing."""
    bands = [land.od for land in make.lands] or ([make.od] if make.od else [])
    if not bands:
        return make
    narrowest = min(pressed.by.summary(form.inscribed).low for form in pressed.candidate.forms)
    gap, angle = (pressed.limit(each) for each in ("making.lead_in_gap", "making.lead_in_angle"))
    chamfer = lead_in(max(high for _, high in bands), narrowest, gap, angle)
    return make._replace(
        grade=grade_of(bands[0], pressed.book),
        lead_in=(round(float(chamfer.start), 2), round(float(chamfer.length), 2)),
        lead_in_within=pressed.limit("making.lead_in_tolerance"),
        seat_before=_seat_before(pressed),
    )


def grade_of(band: tuple[float, float], book: Rulebook) -> str | None:
    """Return the ISO 286 grade whose tolerance comes nearest to a band of diameters (mm); None beyond the table."""
    middle, width = sum(band) / 2, (band[1] - band[0]) / UM
    rows = [row.columns for row in book.tables["iso286_grades"].rows if row.over < middle <= row.to]
    apart = {name: abs(value - width) for row in rows for name, value in row.items() if isinstance(value, float)}
    return min(apart, key=apart.__getitem__, default=None)


def _seat_before(pressed: Pressed) -> tuple[float, float] | None:
    """Return the seat to bore (mm) so that it has its fit after a bare cup was pressed; None for a bearing."""
    part = pressed.candidate.part
    if part.kind != "cup" or part.seat_interference is None:
        return None
    bearing = pressed.book.bearings[part.bearing]
    after = sum(bearing.od) / 2 - sum(part.seat_interference) / 2
    closing = seat_closing(pressed.stack.rings[1:], pressed.stack.stiffening)
    before = middle(seat_before(after, pressed.mean, closing))
    tolerance = pressed.limit("turning.tolerance") * UM
    return round(before - tolerance, 3), round(before + tolerance, 3)

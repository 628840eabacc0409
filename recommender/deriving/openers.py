"""What would open an empty window: a finer reading, another bearing class, another cup material, a bond."""

from collections.abc import Iterator

import numpy as np

from recommender.deriving.bearing import bearing_of, clearance_before, closing
from recommender.deriving.derived import Collided
from recommender.deriving.draws_of import even
from recommender.deriving.edges import CLEARANCE, Edges, class_edges, measured_error
from recommender.deriving.parts import fit_class_of
from recommender.deriving.pressed import UM, Pressed
from recommender.deriving.window import middle_window, od_window
from recommender.metrology.weighing import Weighing
from recommender.rulebook.book import Part


def openers(found: Collided, edges: Edges, pressed: Pressed, needed: float) -> tuple[str, ...]:
    """Return in words every single change that leaves room for `needed` (mm)."""
    return tuple(_openers(found, edges, pressed, needed))


def _openers(found: Collided, edges: Edges, pressed: Pressed, needed: float) -> Iterator[str]:
    by = pressed.by
    if middle_window(edges, by).width >= needed:
        yield "one more reading of the bore: known without doubt it would leave room"
    if found.high_limit == CLEARANCE:
        yield from _other_class(edges, pressed, by, needed)
    for other in _other_parts(pressed):
        yield from _other_material(other, pressed, by)
    if pressed.candidate.material != "polymer" and _bonded(edges, pressed, by) >= needed:
        yield "a bond: a retaining compound fills the gap of a smaller part"


def _other_material(other: Part, pressed: Pressed, by: Weighing) -> Iterator[str]:
    """Yield the window that the fit class of another material leaves here, where it leaves one."""
    book, form = pressed.book, pressed.candidate.forms[0]
    fit_class = fit_class_of(other, other.material, pressed.candidate.bore_material, book)
    if fit_class is None:
        return
    window = od_window(class_edges(form, fit_class, book, measured_error(book)), by)
    if window.width > 0:
        sizes = f"{window.low:.3f} to {window.high:.3f} mm at 20 degC by its fit class"
        yield f"another cup material: {other.title.lower()} of {sizes}"


def _other_class(edges: Edges, pressed: Pressed, by: Weighing, needed: float) -> Iterator[str]:
    bearing = bearing_of(pressed)
    sold, closed = clearance_before(pressed), closing(pressed)
    for name, band in bearing.clearance.items():
        if name in bearing.sold:
            continue
        wider = (even("clearance", *band) - sold) / closed.per_mm
        moved = {**edges.greatest, CLEARANCE: edges.greatest[CLEARANCE] + wider}
        if od_window(edges._replace(greatest=moved), by, needed).width >= needed:
            yield f"a bearing of clearance class {name}"


def _other_parts(pressed: Pressed) -> list[Part]:
    """Return the parts of this shell that are made of something else."""
    book, part = pressed.book, pressed.candidate.part
    families = [each for each in book.standards.values() if part.id in each.parts]
    ids = dict.fromkeys(each for family in families for each in family.parts)
    parts = [book.parts[each] for each in ids]
    return [each for each in parts if each.material != part.material and each.nominal == part.nominal]


def _bonded(edges: Edges, pressed: Pressed, by: Weighing) -> float:
    """Return the width (mm) of the window that a compound in the gap would leave."""
    widest = pressed.limit("compound.widest_gap") * UM
    mean = np.asarray(pressed.candidate.forms[0].mean)
    return od_window(edges._replace(least={"compound.widest_gap": mean - widest}), by).width

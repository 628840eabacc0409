"""Cups turned for one bore: undersize, oversize, or stepped with two lands."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from recommender.deriving.candidate import Candidate, Form
from recommender.deriving.collector import Collector
from recommender.deriving.derived import Land, Make
from recommender.deriving.draws_of import even
from recommender.deriving.edges import Edges, all_edges, class_limit, measured_error
from recommender.deriving.making import finished
from recommender.deriving.openers import openers
from recommender.deriving.parts import SidePart, fit_class_of
from recommender.deriving.pressed import UM, Pressed
from recommender.deriving.window import Band, class_alone, collided, od_window
from recommender.mechanics.amount import middle
from recommender.mechanics.making import target
from recommender.mechanics.window import LandBore, Window, lands, step
from recommender.metrology.draws import Draws
from recommender.rulebook.book import FitClass, Part, Rulebook

LATHE_STEP = 3
CLASS_FIRST = ("make.change", "make.window_width", "make.cup_wall")
PressedAs = Callable[[Candidate], Pressed]


def turned_cups(
    part: Part, form: Form, bore_material: str | None, book: Rulebook, as_pressed: PressedAs
) -> list[Candidate]:
    """Return the undersize and oversize cup: one turned part, told apart by how it differs from the ordinary.

    `as_pressed` returns a candidate with its rings and the openings of this side.
    """
    fit_class = fit_class_of(part, part.material, bore_material, book)
    cup = _unturned("oversize_cup", part, fit_class, bore_material, (form,))
    if fit_class is None:
        return [cup._replace(remedy="undersize_cup"), cup]
    pressed = as_pressed(cup)
    by, tolerance = pressed.by, 2 * book.limits["turning.tolerance"].value * UM
    edges = all_edges(pressed, form, measured_error(book))
    wanted = _aimed_at(by.summary(form.mean).value, fit_class, book)
    window = od_window(edges, by, tolerance, wanted)
    band = _target(window, wanted)
    make = _make(window, edges, pressed, tolerance)
    turned = cup._replace(ods=(even("part_od", *band),), od_inputs=_inputs(fit_class))
    turned = turned._replace(make=finished(replace(pressed, candidate=turned), make._replace(od=band)))
    return [turned._replace(remedy="undersize_cup"), turned]


def stepped_cup(
    part: Part, book: Rulebook, draws: Draws, bore_material: str | None, as_pressed: PressedAs
) -> Candidate | None:
    """Return a cup with two lands, each at its own diameter; None where the seat leaves no room for two lands."""
    length = (draws.depth - book.limits["land.gap"].value) / 2
    if length <= 0:
        return None
    fit_class = fit_class_of(part, part.material, bore_material, book)
    met = lands(draws.mouth, draws.bottom, draws.depth, length, np.abs(draws.ovality))
    forms = tuple(_form(land, draws) for land in met)
    cup = _unturned("stepped_cup", part, fit_class, bore_material, forms)
    if fit_class is None:
        return cup
    by, tolerance = draws.by, 2 * book.limits["turning.tolerance"].value * UM
    pressed = as_pressed(cup)
    edges = [all_edges(pressed, form, measured_error(book)) for form in forms]
    wanted = [_aimed_at(by.summary(form.mean).value, fit_class, book) for form in forms]
    windows = [od_window(each, by, tolerance, band) for each, band in zip(edges, wanted, strict=True)]
    bands = [_target(window, band) for window, band in zip(windows, wanted, strict=True)]
    made = tuple(
        Land(middle(land.start), middle(land.end), band)
        for land, band in zip(met, bands, strict=True)
    )
    worst = min(range(len(windows)), key=lambda index: windows[index].width)
    make = _make(windows[worst], edges[worst], pressed, tolerance)._replace(lands=made)
    turned = cup._replace(ods=tuple(even("part_od", *band) for band in bands), od_inputs=_inputs(fit_class))
    return turned._replace(make=finished(replace(pressed, candidate=turned), make))


def make_facts(candidate: Candidate, ordinary: SidePart | None, book: Rulebook, made: Collector) -> None:
    """Derive how the part to be made differs from the ordinary one, its room for tolerance, walls and lands."""
    make = candidate.make
    if make is None or candidate.ods is None:
        for fact in CLASS_FIRST:
            made.unknown(fact, candidate.why_unknown)
        return
    usual = candidate.part.nominal if ordinary is None or ordinary.od is None else middle(ordinary.od)
    aimed = float(np.mean([np.mean(od) for od in candidate.ods]))
    tolerance = book.limits["turning.tolerance"].value * UM
    made.exact("make.change", (aimed - usual) / UM, "bore.mean_diameter", *candidate.od_inputs)
    assert make.window is not None
    made.exact(
        "make.window_width",
        (make.window[1] - make.window[0] - 2 * tolerance) / UM,
        "bore.mean_diameter",
        "bore.inscribed_diameter",
        *candidate.od_inputs,
    )
    _cup_wall(candidate, make, made)
    if len(make.lands) == 2:
        _land_facts(candidate, make, made)


def _land_facts(candidate: Candidate, make: Make, made: Collector) -> None:
    outer, inner = make.lands
    made.exact(
        "make.step",
        float(step(_middle(outer.od), _middle(inner.od))) / UM,
        "bore.mouth_diameter",
        "bore.inner_diameter",
        *candidate.od_inputs,
    )
    made.exact("make.land_length", min(land.end - land.start for land in make.lands), "seat.depth", "limit:land.gap")


def _cup_wall(candidate: Candidate, make: Make, made: Collector) -> None:
    if candidate.part.seat is None:
        made.unknown("make.cup_wall", "the bearing seat of the cup is not known", f"part:{candidate.part.id}")
        return
    bands = [land.od for land in make.lands] or [make.od or (candidate.part.nominal, candidate.part.nominal)]
    thinnest = min(low for low, _ in bands)
    made.exact("make.cup_wall", (thinnest - candidate.part.seat) / 2, *candidate.od_inputs)


def _make(window: Window, edges: Edges, pressed: Pressed, needed: float) -> Make:
    found = collided(edges, pressed.by, needed)
    if found is not None:
        found = found._replace(openers=openers(found, edges, pressed, needed))
    fit_class = pressed.candidate.fit_class
    alone = None if fit_class is None else class_alone(edges, fit_class.limits.values(), pressed.by)
    ends = (window.low_bound_by, window.high_bound_by)
    return Make(window=(window.low, window.high), bound_by=ends, class_window=alone, collision=found)


def _unturned(
    remedy: str, part: Part, fit_class: FitClass | None, bore_material: str | None, forms: tuple[Form, ...]
) -> Candidate:
    return Candidate(
        remedy,
        f"{part.id} turned for this bore",
        part,
        part.material,
        fit_class,
        bore_material,
        forms,
        None,
        (),
        measured=False,
        why_unknown="no fit class is known for this pair of materials",
    )


def _aimed_at(mean: float, fit_class: FitClass, book: Rulebook) -> Band:
    """Return the turning band (mm) round the middle of the aim."""
    aim = (class_limit(book, fit_class, "aim_low") + class_limit(book, fit_class, "aim_high")) / 2
    tolerance = book.limits["turning.tolerance"].value * UM
    return mean + aim - tolerance, mean + aim + tolerance


def _target(window: Window, wanted: Band) -> Band:
    """Return the turning band (mm): the wanted one, moved inside the window where it would stand outside."""
    half = (wanted[1] - wanted[0]) / 2
    size = target(window, _middle(wanted), 2 * half)
    middle = round(_middle(wanted if size is None else (size.low, size.high)), LATHE_STEP)
    return (round(middle - half, 4), round(middle + half, 4))


def _form(land: LandBore, draws: Draws) -> Form:
    mean, inscribed, widest = (np.asarray(each) for each in (land.mean, land.inscribed, land.widest))
    half = (draws.bottom - draws.mouth) / draws.depth * (land.end - land.start) / 2
    return Form(mean, inscribed, widest, np.abs(draws.ovality), mean - half, mean + half)


def _middle(band: Band) -> float:
    return (band[0] + band[1]) / 2


def _inputs(fit_class: FitClass) -> tuple[str, ...]:
    aims = (fit_class.limits["aim_low"], fit_class.limits["aim_high"], "turning.tolerance")
    return ("bore.mean_diameter", *(f"limit:{each}" for each in aims))

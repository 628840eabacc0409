"""Cups turned for one bore: undersize, oversize, or stepped with two lands."""

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.candidate import Candidate, Form
from recommender.deriving.collector import Collector
from recommender.deriving.derived import Land, Make, SideName
from recommender.deriving.draws_of import even
from recommender.deriving.parts import SidePart, fit_class_of
from recommender.deriving.stack import stack_of
from recommender.deriving.window import UM, class_limit, od_window, reach, strength_bounds
from recommender.mechanics.window import LandBore, Window, lands, step
from recommender.metrology.draws import Draws
from recommender.rulebook.book import FitClass, Part, Rulebook

LATHE_STEP = 3


def turned_cups(
    part: Part,
    case: Case,
    name: SideName,
    book: Rulebook,
    form: Form,
    draws: Draws,
    bore_material: str | None,
    port_near: bool | None,
    length: float,
) -> list[Candidate]:
    """Return the undersize and oversize cup: one turned part, told apart by how it differs from the ordinary."""
    fit_class = fit_class_of(part, part.material, bore_material, book)
    cup = _unturned("oversize_cup", part, fit_class, bore_material, (form,))
    if fit_class is None:
        return [cup._replace(remedy="undersize_cup"), cup]
    stack = stack_of(cup, case, name, book, length)
    bounds = strength_bounds(cup, stack, book, port_near)
    window = od_window(form, fit_class, book, draws.weights, draws.effective_count, bounds)
    band = _target(window, reach(form, draws.weights, draws.effective_count).mean, fit_class, book)
    make = Make(od=band, window=(window.low, window.high), bound_by=(window.low_bound_by, window.high_bound_by))
    turned = cup._replace(ods=(even("part_od", *band),), make=make, od_inputs=_inputs(fit_class))
    return [turned._replace(remedy="undersize_cup"), turned]


def stepped_cup(part: Part, book: Rulebook, draws: Draws, bore_material: str | None) -> Candidate | None:
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
    windows = [od_window(form, fit_class, book, draws.weights, draws.effective_count) for form in forms]
    bands = [
        _target(window, reach(form, draws.weights, draws.effective_count).mean, fit_class, book)
        for window, form in zip(windows, forms, strict=True)
    ]
    made = tuple(
        Land(float(np.median(land.start)), float(np.median(land.end)), band)
        for land, band in zip(met, bands, strict=True)
    )
    tightest = min(windows, key=lambda window: window.high - window.low)
    make = Make(
        od=None,
        window=(tightest.low, tightest.high),
        bound_by=(tightest.low_bound_by, tightest.high_bound_by),
        lands=made,
    )
    return cup._replace(ods=tuple(even("part_od", *band) for band in bands), make=make, od_inputs=_inputs(fit_class))


def make_facts(candidate: Candidate, ordinary: SidePart | None, book: Rulebook, made: Collector) -> None:
    """Derive how the part to be made differs from the ordinary one, its room for tolerance, walls and lands."""
    make = candidate.make
    if make is None or candidate.ods is None:
        for fact in ("make.change", "make.window_width", "make.cup_wall"):
            made.unknown(fact, candidate.why_unknown)
        return
    usual = candidate.part.nominal if ordinary is None or ordinary.od is None else float(np.median(ordinary.od))
    target = float(np.mean([np.mean(od) for od in candidate.ods]))
    tolerance = book.limits["turning.tolerance"].value * UM
    made.exact("make.change", (target - usual) / UM, "bore.mean_diameter", *candidate.od_inputs)
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
        outer, inner = make.lands
        made.exact(
            "make.step",
            float(step(_middle(outer.od), _middle(inner.od))) / UM,
            "bore.mouth_diameter",
            "bore.inner_diameter",
            *candidate.od_inputs,
        )
        made.exact(
            "make.land_length", min(land.end - land.start for land in make.lands), "seat.depth", "limit:land.gap"
        )


def _cup_wall(candidate: Candidate, make: Make, made: Collector) -> None:
    if candidate.part.seat is None:
        made.unknown("make.cup_wall", "the bearing seat of the cup is not known", f"part:{candidate.part.id}")
        return
    bands = [land.od for land in make.lands] or [make.od or (candidate.part.nominal, candidate.part.nominal)]
    thinnest = min(low for low, _ in bands)
    made.exact("make.cup_wall", (thinnest - candidate.part.seat) / 2, *candidate.od_inputs)


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


def _target(window: Window, mean: float, fit_class: FitClass, book: Rulebook) -> tuple[float, float]:
    """Return the turning band (mm): the middle of the aim, moved inside the window where it would stand outside."""
    aim = (class_limit(book, fit_class, "aim_low") + class_limit(book, fit_class, "aim_high")) / 2
    tolerance = book.limits["turning.tolerance"].value * UM
    low, high = window.low + tolerance, window.high - tolerance
    middle = mean + aim if low > high else min(max(mean + aim, low), high)
    middle = round(middle, LATHE_STEP)
    return (round(middle - tolerance, 4), round(middle + tolerance, 4))


def _form(land: LandBore, draws: Draws) -> Form:
    mean, inscribed, widest = (np.asarray(each) for each in (land.mean, land.inscribed, land.widest))
    return Form(mean, inscribed, widest, np.abs(draws.ovality))


def _middle(band: tuple[float, float]) -> float:
    return (band[0] + band[1]) / 2


def _inputs(fit_class: FitClass) -> tuple[str, ...]:
    aims = (fit_class.limits["aim_low"], fit_class.limits["aim_high"], "turning.tolerance")
    return ("bore.mean_diameter", *(f"limit:{each}" for each in aims))

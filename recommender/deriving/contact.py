"""Whether a part touches all round and all along: what ovality and taper of the bore take of its contact."""

import numpy as np

from recommender.deriving.candidate import Array, Form, lands_of, over_lands, widest_ovality
from recommender.deriving.collector import Collector
from recommender.deriving.pressed import Pressed
from recommender.mechanics.oval import contact
from recommender.mechanics.taper import Fit, real_contact, rocking_angle, touches_throughout

FACTS = ("fit.contact", "fit.touches_throughout", "fit.contact_length", "fit.rocking")
TAPER_INPUTS = ("part.od", "bore.mouth_diameter", "bore.inner_diameter", "seat.depth")


def contact_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the contact round and along the seat; a part that is loose all over touches nowhere."""
    made.word("fit.contact", _round(pressed), "fit.mean_interference", "bore.ovality")
    fits = [_along(od, form, pressed.length) for od, form in lands_of(pressed.candidate)]
    touching = np.all([touches_throughout(each) for each in fits], axis=0)
    share = float(np.sum(pressed.by.weights[touching]))
    made.word("fit.touches_throughout", pressed.by.told(share), *TAPER_INPUTS,
              why="the taper is not read finely enough to tell")
    low, high, beyond = _length(pressed, fits, everywhere=bool(touching.all()))
    made.between("fit.contact_length", (low + high) / 2, low, high, *TAPER_INPUTS, beyond=beyond)
    swing = over_lands(np.maximum, [np.asarray(rocking_angle(each)) for each in fits])
    held = over_lands(np.maximum, [np.maximum(each.mouth, each.bottom) for each in fits]) > 0
    pressed.drawn(made, "fit.rocking", np.where(held, swing, 0.0), TAPER_INPUTS, assumed=False)


def _round(pressed: Pressed) -> str:
    """Return what can be told of the contact from the ends of ovality and interference."""
    ovals, tights = pressed.by.summary(widest_ovality(pressed.candidate)), pressed.by.summary(pressed.mean)
    limits = pressed.stack.contact_limits
    told = {
        contact(max(ovals.least, 0.0), tights.most, limits),
        contact(max(ovals.most, 0.0), tights.least, limits),
    }
    return told.pop() if len(told) == 1 else "cannot_be_told"


def _length(pressed: Pressed, fits: list[Fit], *, everywhere: bool) -> tuple[float, float, float]:
    """Return the least and the most length (mm) of real contact on all lands together, how far they reach beyond."""
    if everywhere:
        return pressed.length, pressed.length, 0.0
    reaches = [real_contact(each) for each in fits]
    least, most = (
        np.sum([np.broadcast_to(getattr(each, end), pressed.by.weights.shape) for each in reaches], axis=0)
        for end in ("least", "most")
    )
    low, high = (pressed.by.once(each) for each in (least, most))
    return min(low.low, pressed.length), min(high.high, pressed.length), max(low.beyond, high.beyond)


def _along(od: Array, form: Form, length: float) -> Fit:
    return Fit(od - form.mouth, od - form.bottom, length)

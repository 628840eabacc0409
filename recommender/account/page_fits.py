"""The picture of every remedy's interference against the window of its fit."""

from collections.abc import Iterator

from recommender.account.page_matter import Matter, option_of
from recommender.account.page_pictures import Figure
from recommender.account.pictures.bores import Interval
from recommender.account.pictures.drawing import plain_settings
from recommender.account.pictures.window import Fit, window
from recommender.account.words import OUTCOMES, SIDES, lower
from recommender.deciding.answer import Found, OptionShown, RemedyShown, SideShown

BEST = ("cleared", "cleared_with_cautions", "unsettled", "ruled_out", "not_applicable")
ENDS = ("bar_low", "aim_low", "aim_high", "bar_high")
ALT = (
    "Interference of each remedy on each side, at the mean bore and at the tightest place, with 95 % intervals, "
    "against the allowed window of its fit. The tables below give the numbers."
)
REMARK = (
    "A fit is held against the lower end of its window at the mean bore, against the upper end at the tightest place. "
    "Bold rows are the remedies of this advice. Broken lines and open marks: no measured part stands behind the row."
)


def fit_figures(matter: Matter) -> list[Figure]:
    """Return interference against its window; nothing where damage stops the frame, for no remedy is weighed then."""
    fits = [] if matter.advice.frame.damage else list(_fits(matter))
    if not fits:
        return []
    with plain_settings():
        return [Figure(window(fits, ALT), "Interference against the allowed window", (), (REMARK,))]


def best_option(remedy: RemedyShown, side: SideShown) -> OptionShown | None:
    """Return the chosen option of a remedy, else the one with the best outcome, None where it has none."""
    taken = option_of(side) if remedy.id == side.remedy else None
    return taken or min(remedy.options, key=lambda each: BEST.index(each.outcome), default=None)


def _fits(matter: Matter) -> Iterator[Fit]:
    for name, side, _ in matter.sides():
        for remedy in side.remedies:
            option = best_option(remedy, side)
            fit = None if option is None else _fit(matter, name, remedy, option, remedy.id == side.remedy)
            if fit is not None:
                yield fit


def _fit(matter: Matter, name: str, remedy: RemedyShown, option: OptionShown, chosen: bool) -> Fit | None:
    mean, tightest = (_interval(option.facts.get(f"fit.{key}_interference")) for key in ("mean", "tightest"))
    known = option.facts.get("fit.class")
    pair = matter.book.fit_classes.get(str(known.word)) if known is not None else None
    if mean is None or tightest is None or pair is None:
        return None
    low, aim_low, aim_high, high = (matter.book.limits[pair.limits[each]].value for each in ENDS)
    outcome = OUTCOMES.get(remedy.outcome, remedy.outcome)
    side = SIDES[name].removesuffix(" side")
    bars, aim = (low, high), (aim_low, aim_high)
    return Fit(side, lower(remedy.title), mean, tightest, bars, aim, outcome, chosen, _part(option))


def _part(option: OptionShown) -> str:
    measured = option.facts.get("part.measured")
    if measured is not None and measured.word is True:
        return ""
    return "to be made" if "make.change" in option.facts else "not measured"


def _interval(found: Found | None) -> Interval | None:
    if found is None or found.value is None or found.low is None or found.high is None:
        return None
    return Interval(found.value, found.low, found.high)

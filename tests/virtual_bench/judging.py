"""Compares what was decided on a frame with what it deserves."""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from recommender.deciding.contest import CLEARED, best_outcome, excused, holding, option_outcome
from recommender.deciding.decide import Decision, decide
from recommender.deciding.options import OptionResult
from recommender.deciding.runs import Run
from recommender.deriving.derived import SIDES, Derived, Land, OptionFacts, SideName
from recommender.deriving.parts import fit_class_of
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue
from recommender.rulebook.book import FitClass, Rulebook
from virtual_bench.truth import Truth
from virtual_bench.writing import PartShown

UM = 1e-3
TO_BE_CHOSEN = "(to be chosen)"
AS_IT_IS, TURNED = ("press_as_is", "press_with_compound"), ("undersize_cup", "oversize_cup", "stepped_cup")
Reasons = frozenset[str]
Width = Callable[[FactValue], float]


class Harm(NamedTuple):
    """What is wrong with work that was let through: rules that bar it on the truth, by whether that was said.

    `barred` holds what nobody was told; `told` bars the case printed as open cautions, which the book excuses because
    nothing at a bench settles them; `wrong_size` a diameter to turn, cut or buy outside its true window.
    """

    barred: Reasons = frozenset()
    told: Reasons = frozenset()
    wrong_size: Reasons = frozenset()


def harm(decision: Decision, truth: Truth, true: Decision) -> Harm:
    """Return what the truth holds against the work a decision lets through; nothing where it lets none through."""
    if decision.frame.verdict != "proceed":
        return Harm()
    if any(side.damage for side in true.sides.values()):
        return Harm(frozenset({"damage"}))
    found = [_of_side(name, decision, truth, true) for name in SIDES]
    return Harm(*(frozenset[str]().union(*each) for each in zip(*found, strict=True)))


def part_harm(truth: Truth, true: Decision) -> Reasons:
    """Return the bars on pressing the ordinary part as it is on both sides, without those the book may excuse."""
    frame = truth.frame
    if not frame.part_in_hand:
        parts = [PartShown(frame.shell["part"], name, frame.sides[name].part_od) for name in SIDES]
        true = truth.decision(parts)
    options = [each for side in true.sides.values() for remedy in side.remedies for each in remedy.options
               if remedy.remedy.id == "press_as_is" and "(in hand" in each.option.part]
    return frozenset(run.rule.id for each in options for run in _barring(each) if run.rule.if_undecided != "caution")


def _of_side(name: SideName, decision: Decision, truth: Truth, true: Decision) -> Harm:
    chosen = decision.sides[name].chosen
    assert chosen is not None, "a frame that may proceed has a part on both sides"
    option = chosen.option
    told = frozenset(run.rule.id for run in chosen.runs if excused(run) and run.outcome == "undecided")
    if option.remedy in AS_IT_IS and option.part.endswith(TO_BE_CHOSEN):
        ends = _ends(name, option, truth)
        return Harm(wrong_size=frozenset(ends) - told, told=frozenset(ends) & told)
    same = _same_option(true, name, option)
    bars = frozenset(run.rule.id for run in _barring(same))
    sizes = frozenset(_wrong_size(name, option, truth)) if option.make else frozenset()
    return Harm(bars - told, bars & told, sizes - told)


def _ends(name: SideName, option: OptionFacts, truth: Truth) -> set[str]:
    """Return the bars on the smallest and the largest part that would be bought and pressed."""
    low, high = _even_band(option.facts["part.od"])
    parts = [PartShown(option.part_id, name, size, f"end-{index}") for index, size in enumerate((low, high))]
    tried = truth.decision(parts)
    return {run.rule.id for remedy in tried.sides[name].remedies if remedy.remedy.id == option.remedy
            for each in remedy.options if "(end-" in each.option.part for run in _barring(each)}


def _even_band(od: FactValue) -> tuple[float, float]:
    """Return the ends of a band whose 95 % interval is known."""
    if od.low is None or od.high is None:
        raise ValueError("a generic part is cleared with a band only")
    beyond = (od.high - od.low) * 0.025 / 0.95
    return od.low - beyond, od.high + beyond


def _wrong_size(name: SideName, option: OptionFacts, truth: Truth) -> Iterator[str]:
    """Yield what is wrong with a diameter to be made: straight arithmetic on the true bore and the class's bars."""
    make, bore = option.make, truth.frame.sides[name]
    assert make is not None, "only a part to be made has a size"
    part = truth.book.parts[option.part_id]
    if option.remedy in TURNED:
        fit_class = fit_class_of(part, part.material, truth.frame.bore_material, truth.book)
        assert fit_class is not None, "a turned cup has a fit class"
        for land in make.lands or (Land(0.0, bore.shape.seat, make.od or (0.0, 0.0)),):
            sizes = bore.shape.sizes(land.start, min(land.end, bore.shape.seat))
            yield from _outside(land.od[0] - sizes.mean, land.od[1] - sizes.inscribed, fit_class, truth.book)
    if make.bore is not None:
        if make.bore[0] < bore.shape.sizes().widest:
            yield "cut.clean_up"
        inside = make.sleeve["id_mm"] if make.sleeve else make.bore
        material = "aluminium" if make.sleeve else truth.frame.bore_material
        fit_class = fit_class_of(part, part.material, material, truth.book)
        if fit_class is not None and truth.frame.part_in_hand:
            yield from _outside(bore.part_od - inside[1], bore.part_od - inside[0], fit_class, truth.book)


def _outside(loosest: float, tightest: float, fit_class: FitClass, book: Rulebook) -> Iterator[str]:
    if loosest < book.limits[fit_class.limits["bar_low"]].value * UM:
        yield fit_class.limits["bar_low"]
    if tightest > book.limits[fit_class.limits["bar_high"]].value * UM:
        yield fit_class.limits["bar_high"]


def _barring(result: OptionResult | None) -> list[Run]:
    return [] if result is None else list(holding(result.runs, "rules_out"))


def _same_option(true: Decision, name: SideName, option: OptionFacts) -> OptionResult | None:
    return next((each for remedy in true.sides[name].remedies for each in remedy.options
                 if (each.option.remedy, each.option.part) == (option.remedy, option.part)), None)


def clear_cut(truth: Truth, true: Decision, derived: Derived, plan: Derived, width: Width) -> bool:
    """Return whether the truth lies farther from every limit that bears on the answer than the plan's interval is wide.

    Every fact of the bores, and of the parts in hand, is widened to the truth give or take the whole width of the
    interval that the recommended plan gave it, the one shown or the one that decides. Clear-cut is a frame where no
    outcome changes by that: of no rule that stops or asks, and of no remedy up to the one that the truth deserves.
    """
    blurred = decide(_blurred(derived, plan, width), truth.book)
    if _general(blurred) != _general(true):
        return False
    if any(side.damage for side in true.sides.values()):
        return True
    return all(_outcomes(blurred, true, name) == _outcomes(true, true, name) for name in SIDES)


def _general(decision: Decision) -> set[tuple[str, str, str]]:
    runs = [*decision.runs.frame, *(run for side in decision.runs.sides.values() for run in side.general)]
    return {(run.subject, run.rule.id, run.outcome) for run in runs if run.rule.stance in ("stops_work", "asks_first")}


def _outcomes(decision: Decision, true: Decision, name: SideName) -> dict[str, str]:
    """Return what became of the remedies up to the one the truth deserves, bars that only caution left out."""
    found = {}
    for remedy in decision.sides[name].remedies:
        outcome = best_outcome(
            option_outcome([run for run in each.runs if run.rule.if_undecided != "caution"]) for each in remedy.options
        )
        found[remedy.remedy.id] = "cleared" if outcome in CLEARED else outcome
        if remedy.remedy.id == true.sides[name].verdict:
            break
    return found


def shown(read: FactValue) -> float:
    """Return the width of the interval of a fact that is shown, 95 %; 0 where it has none."""
    return 0.0 if read.low is None or read.high is None else read.high - read.low


def deciding(read: FactValue) -> float:
    """Return the width of the interval of a fact that has to lie on one side of a limit; 0 where it has none."""
    return shown(read) + 2 * read.beyond


def _blurred(derived: Derived, plan: Derived, width: Width) -> Derived:
    sides = {}
    for name in SIDES:
        own, read = derived.sides[name], plan.sides[name]
        options = tuple(_blurred_option(each, read.options, width) for each in own.options)
        sides[name] = own._replace(facts=_wide(own.facts, read.facts, width), options=options)
    return derived._replace(sides=sides)


def _blurred_option(own: OptionFacts, read: tuple[OptionFacts, ...], width: Width) -> OptionFacts:
    """Return an option blurred; what is made or bought to suit the bore as it was read follows the reading."""
    same = next((each for each in read if (each.remedy, each.part) == (own.remedy, own.part)), None)
    if same is None or own.remedy not in AS_IT_IS or same.condition:
        return own
    return own._replace(facts=_wide(own.facts, same.facts, width))


def _wide(true: Mapping[str, FactValue], read: Mapping[str, FactValue], width: Width) -> dict[str, FactValue]:
    """Return the true facts, each give or take the width of the interval it was read with.

    Evidence is left alone, and so are facts whose doubt is not the bench's: what no reading settles.
    """
    return {fact: _widened(value, read.get(fact), width) if CATALOGUE[fact].bench_can_settle else value
            for fact, value in true.items()}


def _widened(true: FactValue, read: FactValue | None, width: Width) -> FactValue:
    if None in (true.low, true.high) or read is None or None in (read.low, read.high):
        return true
    if true.fact.startswith("evidence."):
        return true
    wide = width(read)
    return true._replace(low=true.low - wide, high=true.high + wide)

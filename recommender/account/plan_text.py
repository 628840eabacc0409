"""A plan of readings as a bench sheet to fill in, and what to do next for a case in progress."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from recommender.account.answer_text import settled_name, stop_riding_lines
from recommender.account.lines import BLANK, Line, bullets, heading, section, wrapped
from recommender.account.words import (
    SIDES,
    both_sides,
    capital,
    distinct,
    fact_name,
    frame_verdict,
    listed,
    lower,
    stop,
)
from recommender.asking.bench_of import PlannedReading, PlannedTurn
from recommender.asking.demands import Demand
from recommender.asking.fields import Field
from recommender.asking.next_reading import Closes, NextStep
from recommender.asking.plan import MOST, Plan
from recommender.bench.instruments import Instrument
from recommender.bench.sheets import ENDS, number_text
from recommender.deciding.answer import Advice
from recommender.deriving.spreads import believed_limit
from recommender.ground.quantity import show
from recommender.rulebook.book import Rulebook

BLANK_CELL = "________"
TO_FILL = 10
FACTS: Mapping[Field, str] = {
    "mean": "bore.mean_diameter", "inscribed": "bore.inscribed_diameter", "widest": "bore.widest_diameter",
    "mouth": "bore.mouth_diameter", "bottom": "bore.inner_diameter", "ovality": "bore.ovality",
    "lobing": "bore.lobing", "taper": "bore.taper",
}
UNSEEN = {
    "size": "the size", "taper": "taper", "ovality": "an oval bore (it takes an instrument with two contacts)",
    "lobing": "a three-lobed bore (it takes an instrument with three contacts)",
    "no reading to spare": "whether the readings agree, for none is to spare",
}
SHARE_TOLD = 0.9995


def next_lines(advice: Advice, steps: Sequence[NextStep]) -> list[Line]:
    """Return what to do next for a case, the likeliest to settle something first, in lines of 80 columns."""
    if not steps:
        asked = [Line("  Nothing is open that a reading could settle.")]
    else:
        asked = [line for count, step in enumerate(_merged(steps), 1) for line in _step(count, step)]
    return [
        *stop_riding_lines(advice),
        *wrapped(stop(f"{advice.case.id}: {advice.case.title}")),
        *heading(f"FRAME: {frame_verdict(advice)}"),
        *heading("WHAT TO DO NEXT"),
        *asked,
        *_how_likely(steps),
    ]


def plan_lines(plan: Plan, instruments: Sequence[Instrument], book: Rulebook) -> list[Line]:
    """Return a plan as a bench sheet to fill in, what it settles, and what stays open, in lines of 80 columns."""
    coarse = [f"{each}: cannot decide a fit" for each in plan.too_coarse]
    used = {each.instrument for each in plan.readings} | {each.instrument for each in plan.full_turns}
    spare = [each.id for each in instruments if each.id not in used and each.id not in plan.too_coarse]
    title = lower(book.standards[plan.standard].title)
    return [
        *wrapped(f"Bench sheet: {plan.standard} ({title}), {plan.material}, seat {number_text(plan.seat_depth)} mm "
                 f"deep; {len(plan.readings)} readings{_and_turns(plan.full_turns)} on each side, in mm."),
        *(line for side in SIDES for line in _sheet(side, plan)),
        BLANK,
        *wrapped("Depth counts from that side's face, turns in degrees clockwise seen from that face, 0 at the down "
                 "tube."),
        *(wrapped("Full turn: turn the gauge slowly all the way round at that depth, and write down the smallest and "
                  "the largest it shows. Form of one depth alone, such as a pinch, shows in little else.")
          if plan.full_turns else []),
        *section("WITH", bullets(_tool(each, book) for each in instruments if each.id in used)),
        *section("NOT USED", bullets([*coarse, *(f"{each}: a finer one of its kind is at hand" for each in spare)])),
        *section("SETTLED SO, of round and parallel bores in the middle of the limits",
                 bullets(f"{_demand(each, book)}: {_percent(share)}" for each, share in plan.shares.items())),
        *section("OUT OF REACH", _out_of_reach(plan, book)),
    ]


def _and_turns(turns: Sequence[PlannedTurn]) -> str:
    return f" and {len(turns)} full turns" if turns else ""


def _sheet(side: str, plan: Plan) -> list[Line]:
    lines = heading(SIDES[side].upper())
    for instrument, taken in groupby(plan.readings, key=lambda each: each.instrument):
        mine = list(taken)
        turns = sorted({each.turn for each in mine})
        head = "".join(f"{f'{number_text(turn)} deg':>{TO_FILL}}" for turn in turns)
        lines += [*wrapped(instrument, "  "), Line(f"    {'depth':<8}{head}")]
        lines += [line for depth in sorted({each.depth for each in mine}) for line in _depth(depth, turns, mine)]
    for instrument, swept in groupby(plan.full_turns, key=lambda each: each.instrument):
        head = "".join(f"{end:>{TO_FILL}}" for end in ENDS)
        lines += [*wrapped(f"{instrument}, full turn", "  "), Line(f"    {'depth':<8}{head}")]
        lines += [Line(f"    {f'{number_text(each.depth)} mm':<8}" + f"{BLANK_CELL:>{TO_FILL}}" * len(ENDS))
                  for each in swept]
    return lines


def _depth(depth: float, turns: Sequence[float], readings: Sequence[PlannedReading]) -> list[Line]:
    """Return the lines of one depth; a place to be read more than once has a line for each time."""
    counts = [sum((each.depth, each.turn) == (depth, turn) for each in readings) for turn in turns]
    return [
        Line(f"    {f'{number_text(depth)} mm':<8}"
             + "".join(f"{BLANK_CELL if count > repeat else '':>{TO_FILL}}" for count in counts).rstrip())
        for repeat in range(max(counts))
    ]


def _tool(instrument: Instrument, book: Rulebook) -> str:
    kind = book.instruments[instrument.kind]
    known = instrument.error_limit is not None
    limit = believed_limit(instrument, book)
    why = "" if known else " (assumed for its kind)"
    if known and limit != instrument.error_limit:
        why = " (the finest that is believed of its kind)"
    return f"{instrument.id}: {lower(kind.title)}, error limit {_um(limit)}{why}"


def _out_of_reach(plan: Plan, book: Rulebook) -> list[Line]:
    missed = [f"{_demand(each, book)}: {_percent(share)} with {MOST} readings or fewer"
              for each, share in plan.out_of_reach.items()]
    unseen = [UNSEEN.get(each) or (book.limits[each].meaning if each in book.limits else each) for each in plan.unseen]
    return [
        *bullets(missed),
        *(wrapped(f"Never seen by these instruments: {listed(list(map(lower, unseen)))}.", "  ") if unseen else []),
        *(wrapped(_finer(plan), "  ") if missed else []),
    ]


def _finer(plan: Plan) -> str:
    if plan.finer is None:
        return "Finer gauges of the same kinds would not do, not even with a tenth of the error limit."
    limits = [f"{name} with an error limit of {_um(limit)}" for name, limit in plan.finer.items()]
    return f"All of it would be in reach of {listed(limits)}."


def _demand(demand: Demand, book: Rulebook) -> str:
    """Return what is to be settled: a form with its limit and what that is for, a size with the published limits."""
    name = capital(fact_name(FACTS[demand.field]))
    known = book.limits.get(demand.limits)
    if known is not None:
        return f"{name}, limit {known.shown} ({lower(known.meaning)})"
    ends = [f"{word} {show(end, 'mm')}" for word, end in (("at least", demand.low), ("at most", demand.high))
            if end is not None]
    return f"{name}, {listed(ends)} ({demand.limits})"


def _merged(steps: Iterable[NextStep]) -> list[tuple[NextStep, tuple[str, ...]]]:
    """Return the steps with the sides they are for; what is asked in the same words is told once."""
    found: dict[object, tuple[NextStep, tuple[str, ...]]] = {}
    for step in steps:
        key: object = step.closes[0].question.do if step.kind == "other" else step
        known, sides = found.get(key, (step._replace(closes=()), ()))
        closes = (*known.closes, *step.closes)
        found[key] = (known._replace(closes=closes), (*sides, step.side or ""))
    return list(found.values())


def _step(count: int, told: tuple[NextStep, tuple[str, ...]]) -> list[Line]:
    step, sides = told
    named = distinct(sides)
    side = "Both sides: " if set(named) == set(SIDES) else both_sides(named)
    lines = [*wrapped(f"{side}{stop(_what(step))}", f"  {count}. ")]
    if step.kind == "other":
        return [*lines, *wrapped(f"Settles {_subjects(step.closes)}.", "     ")]
    lines += bullets(_closes(step), 5)
    left = "" if step.left is None else f"The doubt in what it is for shrinks to {_percent(step.left)} of what it is."
    return lines + (wrapped(left, "     ") if left else [])


def _what(step: NextStep) -> str:
    if step.kind == "other":
        return capital(step.closes[0].question.do)
    if step.kind == "go_plug":
        return f"Try a go plug of {show(step.size or 0.0, 'mm')}"
    readings = _readings(step.readings) + _turns(step.full_turns)
    if step.kind == "repeat":
        return f"Read again, for it stands out from the rest: {readings}"
    count = len(step.readings)
    start = "Nothing was read here yet; take the" if step.kind == "plan" else "Take the"
    return f"{start} {'reading' if count == 1 else f'{count} readings'}: {readings}"


def _readings(readings: Iterable[PlannedReading]) -> str:
    """Return readings in their order, those with one instrument at one depth together."""
    return "; ".join(
        f"{instrument} at depth {number_text(depth)} mm, turn"
        f" {listed([number_text(each.turn) for each in together])} deg"
        for (instrument, depth), together in groupby(readings, key=lambda each: (each.instrument, each.depth))
    )


def _turns(turns: Iterable[PlannedTurn]) -> str:
    """Return the full turns that follow the readings, nothing where there are none."""
    return "".join(
        f"; then full turns of {instrument} at depths {listed([number_text(each.depth) for each in swept])} mm, the"
        " smallest and the largest of each" for instrument, swept in groupby(turns, key=lambda each: each.instrument)
    )


def _closes(step: NextStep) -> list[str]:
    """Return what a step settles and how likely; what cannot be told before stands together."""
    told = [f"settles {_subjects([each])}: {fact_name(each.question.fact)} ({_chance(step, each.share)})"
            for each in step.closes if each.share is not None]
    blind = [each for each in step.closes if each.share is None]
    facts = "; ".join(fact_name(each.question.fact) for each in blind)
    return [*told, *([f"settles {_subjects(blind)}: {facts} (how likely cannot be told before)"] if blind else [])]


def _chance(step: NextStep, share: float) -> str:
    """Return how likely: counted where outcomes were tried as equally likely, else as a share."""
    counted = step.kind == "reading"
    return f"in {share * step.reruns:.0f} of {step.reruns} outcomes" if counted else f"{_percent(share)} likely"


def _subjects(closes: Iterable[Closes]) -> str:
    names = distinct(settled_name(each) for found in closes for each in found.question.would_settle)
    return ", ".join(names) or "what is asked"


def _how_likely(steps: Sequence[NextStep]) -> list[Line]:
    tried = max((each.reruns for each in steps if each.kind == "reading"), default=0)
    if not tried:
        return []
    return [BLANK, *wrapped(f"Of {tried} equally likely outcomes of the readings those count after which the whole "
                            "case, judged again, no longer asks the question.")]


def _percent(share: float) -> str:
    shown = f"{100 * share:.0f} %"
    return "under 100 %" if shown == "100 %" and share < SHARE_TOLD else shown


def _um(limit: float) -> str:
    return show(limit * 1000, "um")

"""Records in words: whether one still stands, what differs between two, what a second round settled, what was done."""

from collections.abc import Iterator, Sequence

from recommender.account.answer_text import DAMAGE
from recommender.account.lines import Line, bullets, row, section, wrapped
from recommender.account.stop_riding import notice
from recommender.account.words import fact_name
from recommender.facts.catalogue import CATALOGUE
from recommender.records.after_pressing import ALL, SIDES, missing, not_as_wanted
from recommender.records.difference import BookChanges, Change, Difference, same_frame
from recommender.records.disposition import Done, differing
from recommender.records.record import Record
from recommender.records.settled import Settled
from recommender.trials.replay import Replayed

MOST_SHOWN = 12


def replay_lines(replayed: Replayed) -> list[Line]:
    """Return whether a record stands, and where it does not what differs and what that may come from."""
    if replayed.difference is None:
        head = Line(f"{replayed.record}: DOES NOT STAND", "heading")
        return [head, *wrapped("Its case is refused at reading today:", "  "),
                *bullets([f"{each.place}: {each.message}" for each in replayed.flaws], 4)]  # fmt: skip
    found = replayed.difference
    if found.stands:
        return [*wrapped(f"{replayed.record}: stands{_but(found)}", "", "  ")]
    return [Line(f"{replayed.record}: DOES NOT STAND", "heading"), *_causes(found), *_effects(found)]


def replayed_line(count: int, stood: int) -> Line:
    """Return how many of the records stand."""
    return Line(f"{count} record{'' if count == 1 else 's'}: {stood} stand, {count - stood} do not")


def compared_lines(before: Record, after: Record, found: Difference) -> list[Line]:
    """Return what differs between two records of one frame."""
    same = [] if found.case or found.book or found.engine or not found.stands else wrapped("Nothing differs.", "  ")
    doubt = "Neither follows the other and their cases have other ids: are they of one frame?"
    return [
        *([] if same_frame(before, after) else wrapped(doubt, weight="heading")),
        *row("before", before.id, 0), *row("after", after.id, 0),
        *section("Case text", [Line(f"  {each}"[:200]) for each in found.case]),
        *section("Rules and engine", [] if not found.book and found.engine is None else _causes(found)),
        *section("Decision", _effects(found)),
        *same,
    ]  # fmt: skip


def settled_lines(found: Settled, earlier: str) -> list[Line]:
    """Return what the readings since an earlier record settled; one line when they settled nothing."""
    lines = [
        *_changes("Verdicts", found.verdicts),
        *_texts("No longer open", found.gone),
        *_texts("Open now", found.opened),
        *_changes("Known now", found.known),
        *_changes("Known more closely", found.sharper),
        *_changes("Known less closely", found.wider),
    ]
    return section(f"SINCE {earlier}", lines or wrapped("The new readings settled nothing.", "  "))


def disposition_lines(record: Record, entries: Sequence[Done]) -> list[Line]:
    """Return what was done with a frame in the end, in the order entered."""
    if not entries:
        return wrapped("Nothing was entered about what was done.", "  ")
    return [line for each in entries for line in _done(record, each)]


def record_lines(record: Record, entries: Sequence[Done]) -> list[Line]:
    """Return a record in a few lines: case, verdicts, rules and engine, and what was done in the end.

    A frame refused for damage has the stop-riding notice above it.
    """
    advice = record.content.advice
    sides = [(name.replace("_", "-"), side["verdict"]) for name, side in advice["sides"].items()]
    told = [("case", advice["case"]["title"]), ("received", advice["case"]["received"]),
            ("follows", advice["case"]["follows"] or ""), ("frame", advice["frame"]["verdict"]), *sides,
            ("rules", record.content.book.fingerprint[:12]), ("engine", advice["engine"])]  # fmt: skip
    damage = [line for each in advice["notices"] if each["id"] == DAMAGE for line in notice(each["text"], record.id)]
    return [
        *damage, Line(record.id, "heading"), *(line for label, text in told for line in row(label, text)),
        *section("What was done", disposition_lines(record, entries)),
    ]  # fmt: skip


def _done(record: Record, done: Done) -> list[Line]:
    sides = [f"{name}: {what}" for name, what in (("drive", done.drive), ("non-drive", done.non_drive)) if what]
    other = differing(record.content, done)
    note = f" Other than decided ({', '.join(other)}): {done.reason}" if other else done.reason and f" {done.reason}"
    head = bullets([f"{done.dated.isoformat()}, {done.by}: {done.what}{_bracketed(sides)}.{note}"])
    return [*head, *bullets(list(_after_pressing(record, done)), 4)]


def _after_pressing(record: Record, done: Done) -> Iterator[str]:
    """Yield what was checked after pressing, what is not as wanted, what nobody checked, and the day to look again."""
    if not done.pressed and not done.checks and done.look_again is None:
        return
    if done.checks:
        yield f"Checked after pressing: {'; '.join(f'{_check(name)}: {each}' for name, each in done.checks.items())}."
    if bad := not_as_wanted(done.checks):
        yield f"Not as wanted: {'; '.join(map(_check, bad))}. Take it apart and measure again, as the next round."
    if left := missing(done.checks, done.pressed):
        yield f"Not entered: {'; '.join(map(_check, left))}."
    yield from filter(None, (_forecast(record, side, done) for side in SIDES))
    again = f"Look again on {done.look_again.isoformat()}." if done.look_again else "No day to look again was set."
    yield f"{again} Do not ride on if it creaks, moves or grinds before."


def _check(name: str) -> str:
    side, _, what = name.rpartition(".")
    return f"{side.replace('_', '-')} {ALL[name].name}" if side else ALL[what].name


def _forecast(record: Record, side: str, done: Done) -> str:
    make = record.content.advice["sides"][side]["make"]
    force = done.checks.get(f"{side}.force")
    if force is None or not make or not make.get("press_force"):
        return ""
    low, high = make["press_force"]
    return f"{side.replace('_', '-').capitalize()}: pressed with {force}; the forecast was {low:.0f} to {high:.0f} N."


def _bracketed(texts: Sequence[str]) -> str:
    return f" ({'; '.join(texts)})" if texts else ""


def _but(found: Difference) -> str:
    told = [*(["the engine"] if found.engine else []), *(["the rules"] if found.book else [])]
    return f" (though {' and '.join(told)} changed)" if told else ""


def _causes(found: Difference) -> list[Line]:
    engine = () if found.engine is None else (found.engine,)
    known = [*_changes("Engine", engine), *_book(found.book)]
    if not known and not found.case:
        known = wrapped("Neither case, rules nor version changed: the engine or this machine computes otherwise.", "  ")
    return [*([] if found.case else wrapped("The case is untouched.", "  ")), *known]


def _book(found: BookChanges) -> list[Line]:
    return [
        *_changes("Limits", found.limits),
        *_texts("Rules", [f"{each.where} ({each.after})" for each in found.rules]),
        *_texts("Other entries", [f"{each.where} ({each.after})" for each in found.others]),
    ]


def _effects(found: Difference) -> list[Line]:
    return [
        *_changes("Verdicts", found.verdicts), *_changes("Outcomes", found.outcomes), *_changes("Facts", found.facts),
    ]  # fmt: skip


def _changes(title: str, changes: Sequence[Change]) -> list[Line]:
    return _texts(title, [f"{_where(each.where)}: {each.before} -> {each.after}" for each in changes])


def _where(where: str) -> str:
    """Return where a change is, a fact by its name instead of its id."""
    scope, _, fact = where.rpartition("/")
    return f"{scope}, {fact_name(fact)}" if fact in CATALOGUE else where


def _texts(title: str, texts: Sequence[str]) -> list[Line]:
    if not texts:
        return []
    more = [f"and {len(texts) - MOST_SHOWN} more"] if len(texts) > MOST_SHOWN else []
    return [*wrapped(f"{title}:", "  "), *bullets([*texts[:MOST_SHOWN], *more], 4)]

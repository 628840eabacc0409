"""The notices an advice carries: they stand in code, the book only words them."""

from collections.abc import Iterator, Mapping

from recommender.deciding.answer import SideShown, Words
from recommender.deciding.crack_lock import REASON
from recommender.deciding.decide import Decision
from recommender.deriving.derived import SIDES, SideName
from recommender.rulebook.book import Rulebook

FALLBACK = {
    "damage": "Do not ride this frame until it has been inspected by a specialist.",
    "size_or_form": "Do not ride with the present bottom bracket.",
    "measure_again": "Nothing is pressed before the open questions are settled.",
    "held": "Nothing is pressed on this side while the frame as a whole is not cleared for work.",
    "not_released": "Not released. The points listed under before work are missing.",
    "proceed": "Nothing was found here that stops riding once the work and the checks listed are done.",
    "book_edited": "Shipped rules were edited here.",
}
# What the rider must be told stands whatever the book words it like.
LOCKED = frozenset({"damage", "size_or_form"})
STANDING = (
    "This account is not a certification and not legal advice.",
    "Visual inspection cannot exclude hidden damage.",
    "The frame maker's instructions, local rules and licensed practice prevail.",
)


def notices(decision: Decision, sides: Mapping[SideName, SideShown], book: Rulebook) -> tuple[Words, ...]:
    """Return every notice that applies, the gravest first, then the sentences every account carries."""
    return tuple(_notices(decision, sides, book))


def refused_for_damage(decision: Decision) -> bool:
    """Return whether the frame is refused because of damage found on it."""
    return any(side.damage for side in decision.sides.values())


def _notices(decision: Decision, sides: Mapping[SideName, SideShown], book: Rulebook) -> Iterator[Words]:
    yield _verdict_notice(decision, book)
    held = tuple(side for side in SIDES if sides[side].verdict == "held")
    if held:
        yield _words("held", held, book)
    missing = tuple(side for side in SIDES if (make := sides[side].make) is not None and make.before_work)
    if missing:
        yield _words("not_released", missing, book)
    if book.edited:
        yield _words("book_edited", (), book)
    if book.house_changes:
        changed = ", ".join(each.id for each in book.house_changes)
        yield Words("house_changes", f"House changes in force: {changed}.", (), ())
    if book.house_void:
        void = ", ".join(each.id for each in book.house_void)
        yield Words("house_void", f"House changes no longer in force, their review is overdue: {void}.", (), ())
    for sentence in _standing(book):
        yield Words("standing", sentence, (), ())


def _standing(book: Rulebook) -> tuple[str, ...]:
    """Return the sentences every account carries; an edited book may add to them but not drop any."""
    kept = STANDING if book.edited or not book.standing else ()
    return tuple(dict.fromkeys((*book.standing, *kept)))


def _verdict_notice(decision: Decision, book: Rulebook) -> Words:
    if decision.frame.verdict != "refuse":
        return _words(decision.frame.verdict, (), book)
    if not refused_for_damage(decision):
        return _words("size_or_form", (), book)
    rules = dict.fromkeys(run.rule.id for side in decision.sides.values() if side.damage for run in side.because)
    notice = _words("damage", (), book, tuple(rules))
    return notice if not decision.crack else Words("damage", f"{REASON} {notice.text}", (), notice.because)


def _words(name: str, sides: tuple[SideName, ...], book: Rulebook, because: tuple[str, ...] = ()) -> Words:
    text = book.wording.get("notices", {}).get(name) or FALLBACK[name]
    if name in LOCKED and FALLBACK[name] not in text:
        text = f"{FALLBACK[name]} {text}"
    return Words(name, text, sides, because)

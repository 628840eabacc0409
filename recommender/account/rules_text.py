"""The vocabulary of the rules in full: limits counted by source, house changes, pages of checks."""

from collections import Counter
from collections.abc import Iterator

from recommender.account.lines import Line, row, wrapped
from recommender.account.words import HOUSE_ACTS
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.ground.quantity import show
from recommender.rulebook.book import HouseChange, Rulebook
from recommender.rulebook.stock import SOURCE_WORDS, Source
from recommender.rulebook.vocabulary import words_of


def vocabulary_lines(book: Rulebook) -> list[Line]:
    """Return every fact with scope, unit, meaning, range, formula or observer, source and what settles it."""
    return [line for _, fact in sorted(CATALOGUE.items()) for line in _fact(fact, book)]


def limits_summary(book: Rulebook) -> list[Line]:
    """Return how many limits, rules and other entries have which mark of source, and what a shop may do to limits."""
    by_shop = Counter(each.shop_may for each in book.limits.values())
    return [
        *(line for name, sources in _sources(book).items() for line in _by_mark(name, sources)),
        *wrapped("what a shop may do to a limit:", weight="heading"),
        *(line for may, count in sorted(by_shop.items()) for line in row(str(count), may)),
    ]  # fmt: skip


def _sources(book: Rulebook) -> dict[str, list[Source]]:
    """Return the source of every entry that holds numbers, by what it is."""
    stock = (book.standards, book.materials, book.instruments, book.spreads, book.bearings, book.parts, book.compounds)
    return {
        "limits": [each.source for each in book.limits.values()],
        "rules": [each.source for each in book.rules],
        "shells, materials, instruments, spreads, bearings, parts and compounds":
            [each.source for entries in stock for each in entries.values()],
        "tables": [each.source for each in book.tables.values()],
    }  # fmt: skip


def _by_mark(name: str, sources: list[Source]) -> list[Line]:
    found = Counter(each.kind for each in sources)
    return [
        *wrapped(f"{len(sources)} {name} by source:", weight="heading"),
        *(line for kind, told in SOURCE_WORDS.items() if found[kind] for line in row(str(found[kind]), told)),
    ]  # fmt: skip


def provenance_lines(name: str, book: Rulebook) -> list[Line]:
    """Return the house changes of one id, in force or void: what was there before, and who changed it why."""
    return [line for change, void in _changes(name, book) for line in _change(change, void)]


def page_lines(check: str, page: str) -> list[Line]:
    """Return the page of a check under its id."""
    return [*wrapped(check, weight="heading"), *(Line(line) for line in page.splitlines())]


def _fact(fact: Fact, book: Rulebook) -> list[Line]:
    unit = "" if fact.kind != "number" or fact.unit == "1" else f", {fact.unit}"
    return [
        *wrapped(f"{fact.id} ({fact.scope}{unit})"),
        *row("Meaning", fact.meaning),
        *row("Values", _values(fact, book)),
        *row("From", fact.made_by),
        *row("Source", fact.source),
        *row("When open", fact.settle),
    ]


def _values(fact: Fact, book: Rulebook) -> str:
    if fact.kind == "flag":
        return "true, false"
    if fact.kind == "word":
        return ", ".join(words_of(fact, book))
    return "" if fact.span is None else " to ".join(show(each, fact.unit) for each in fact.span)


def _changes(name: str, book: Rulebook) -> Iterator[tuple[HouseChange, bool]]:
    yield from ((each, False) for each in book.house_changes if each.id == name)
    yield from ((each, True) for each in book.house_void if each.id == name)


def _change(change: HouseChange, void: bool) -> list[Line]:
    state = f"{HOUSE_ACTS[change.kind]} by the house{', void: its review is overdue' if void else ''}"
    moved = f"{change.before} -> {change.after}" if change.before and change.after else change.before or change.after
    return [
        *wrapped(f"{state}:", weight="heading"),
        *row("Change", moved),
        *row("Reason", change.reason),
        *row("By", f"{change.by}, {change.dated}; to be looked at again by {change.review_by}"),
        *row("Accepts", ", ".join(change.accepts)),
        *row("Place", str(change.place)),
    ]

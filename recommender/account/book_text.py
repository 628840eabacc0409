"""The rule book and the catalogue of facts as lists and single entries to read."""

from collections.abc import Callable, Iterable, Iterator
from typing import Protocol, TypeVar

from recommender.account.lines import Line, row, wrapped
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.logic.conditions import Condition, Leaf
from recommender.rulebook.book import Limit, Part, Remedy, Rule, Rulebook, Standard
from recommender.rulebook.grid import AnswerGrid
from recommender.rulebook.vocabulary import words_of

T = TypeVar("T")
Teller = Callable[[str], list[Line]]
SHOP_MAY = {"tighten": "may be tightened by a shop", "move": "may be moved by a shop", "nothing": "fixed"}

WORDED = ("actions", "cautions", "deferrals")


class Titled(Protocol):
    """An entry of the rule book with an id and a title."""

    @property
    def id(self) -> str:
        """Return its id."""

    @property
    def title(self) -> str:
        """Return its title."""


def checked_line(book: Rulebook) -> str:
    """Return the line that says a rule book has no flaws and what is in it."""
    house = f", {len(book.house_changes)} house changes in force" if book.house_changes else ""
    edited = "; the shipped rules were edited here" if book.edited else ""
    return f"no flaws: {len(book.rules)} rules, {len(book.grids)} grids, {len(book.limits)} limits{house}{edited}"


def fact_lines() -> list[Line]:
    """Return every fact with its scope, unit and meaning, sorted by id."""
    return [line for _, fact in sorted(CATALOGUE.items()) for line in _fact_short(fact)]


def limit_lines(book: Rulebook) -> list[Line]:
    """Return every limit with its value, safe side, what a shop may do to it, and its source, sorted by id."""
    return [line for _, limit in sorted(book.limits.items()) for line in _limit(limit)]


def entry_lines(name: str, book: Rulebook) -> list[Line]:
    """Return everything of that id, whatever kind it is; nothing when the id is not known."""
    return [line for kind, found in _entries(book).items() if name in found for line in found[name](kind)]


def section_lines(name: str, book: Rulebook) -> list[Line]:
    """Return each id of a section such as `parts`, with its title; nothing when there is no such section."""
    found = _listed(book).get(name, {})
    return [line for id_, title in found.items() for line in wrapped(f"{id_}: {title}", "", "    ")]


def known_ids(book: Rulebook) -> list[str]:
    """Return every id and every section that can be shown, sorted."""
    return sorted({*_listed(book), *(name for found in _entries(book).values() for name in found)})


def _entries(book: Rulebook) -> dict[str, dict[str, Teller]]:
    return {
        "fact": {each.id: _teller(lambda fact: _fact(fact, book), each) for each in CATALOGUE.values()},
        "limit": {each.id: _teller(_limit, each) for each in book.limits.values()},
        "rule": {each.id: _teller(_rule, each) for each in book.rules},
        "grid": {each.id: _teller(_grid, each) for each in book.grids.values()},
        "remedy": {each.id: _teller(_remedy, each) for each in book.remedies},
        "part": {each.id: _teller(lambda part: _part(part, book), each) for each in book.parts.values()},
        "standard": {each.id: _teller(_standard, each) for each in book.standards.values()},
        **{
            section.removesuffix("s"): {name: _teller(wrapped, f"{name}: {text}") for name, text in texts.items()}
            for section, texts in book.wording.items()
            if section in WORDED
        },
    }


def _listed(book: Rulebook) -> dict[str, dict[str, str]]:
    titled: dict[str, Iterable[Titled]] = {
        "remedies": book.remedies, "parts": book.parts.values(), "standards": book.standards.values(),
        "grids": book.grids.values(), "bearings": book.bearings.values(), "compounds": book.compounds.values(),
        "materials": book.materials.values(), "causes": book.causes.values(),
    }  # fmt: skip
    return {section: {each.id: each.title for each in several} for section, several in titled.items()} | {
        section: dict(book.wording[section]) for section in WORDED
    }


def _teller(tell: Callable[[T], list[Line]], entry: T) -> Teller:
    return lambda kind: [*wrapped(f"{kind}:", weight="heading"), *tell(entry)]


def _fact_short(fact: Fact) -> list[Line]:
    unit = "" if fact.kind != "number" or fact.unit == "1" else f", {fact.unit}"
    return [*wrapped(f"{fact.id} ({fact.scope}{unit})"), *wrapped(fact.meaning, "    ")]


def _fact(fact: Fact, book: Rulebook) -> list[Line]:
    span = "" if fact.span is None else f" from {fact.span[0]:g} to {fact.span[1]:g}"
    words = "true, false" if fact.kind == "flag" else ", ".join(words_of(fact, book))
    return [
        *wrapped(f"{fact.id}: {fact.name}"),
        *row("Meaning", fact.meaning),
        *row("Scope", fact.scope),
        *row("Value", f"number in {fact.unit}{span}" if fact.kind == "number" else words),
        *row("From", fact.made_by),
        *row("Source", fact.source),
        *row("When open", fact.settle),
    ]


def _limit(limit: Limit) -> list[Line]:
    house = ", of the house" if limit.layer == "house" else ""
    return [
        *wrapped(f"{limit.id}: {limit.shown}{house}"),
        *row("Meaning", limit.meaning),
        *row("Stricter", f"{limit.safe_side}; {SHOP_MAY[limit.shop_may]}"),
        *row("Source", str(limit.source)),
        *row("Place", str(limit.place)),
    ]


def _rule(rule: Rule) -> list[Line]:
    about = ", ".join(rule.about.names) or rule.about.kind
    sealed = ", sealed" if rule.sealed else ""
    return [
        *wrapped(f"{rule.id}: {rule.title}"),
        *row("Says", rule.because),
        *row("About", about),
        *row("Stance", f"{rule.stance.replace('_', ' ')}{sealed}"),
        *_conditions(rule.condition),
        *row("If open", "a caution" if rule.if_undecided else ""),
        *row("To do", ", ".join(rule.do)),
        *row("Source", str(rule.source)),
        *row("Place", str(rule.place)),
    ]


def _conditions(condition: Condition) -> list[Line]:
    first, *others = _told(condition, 0)
    return [*row("Holds if", first), *(Line(f"{' ' * 16}{each}") for each in others)]


def _told(condition: Condition, level: int) -> Iterator[str]:
    indent = "  " * level
    if isinstance(condition, Leaf):
        yield f"{indent}{_leaf(condition)}"
        return
    yield f"{indent}{condition.kind.replace('_', ' ')}:"
    for part in condition.parts:
        yield from _told(part, level + 1)


def _leaf(leaf: Leaf) -> str:
    wanted = ", ".join(each.shown if each.limit is None else f"{each.shown} ({each.limit})" for each in leaf.wanted)
    return f"{leaf.fact.id} {leaf.op.replace('_', ' ')} {wanted}"


def _grid(grid: AnswerGrid) -> list[Line]:
    house = ", of the house" if grid.layer == "house" else ""
    return [
        *wrapped(f"{grid.id}: {grid.title}{house}"),
        *row("Answers", grid.answers),
        *row("Inputs", ", ".join(grid.inputs)),
        *(line for index in range(len(grid.places)) for line in row(f"Row {index + 1}", grid.row_shown(index))),
        *row("Limits", ", ".join(grid.limits)),
        *row("Source", str(grid.source)),
        *row("Place", str(grid.place)),
    ]


def _remedy(remedy: Remedy) -> list[Line]:
    return [
        *wrapped(f"{remedy.id}: {remedy.title}"),
        *row("Undone", "can be undone" if remedy.reversible else "cannot be undone"),
        *row("Owner", "has to agree in writing" if remedy.consent else ""),
        *row("Explained", remedy.explains),
    ]


def _part(part: Part, book: Rulebook) -> list[Line]:
    band = "no band known" if part.od is None else f"{part.od[0]:.3f} to {part.od[1]:.3f} mm"
    seat = "" if part.seat is None else f", in a seat of {part.seat:g} mm"
    return [
        *wrapped(f"{part.id}: {part.title}"),
        *row("Kind", f"{part.kind}, {'can' if part.can_be_turned else 'cannot'} be turned"),
        *row("Material", part.material),
        *row("Outside", f"nominal {part.nominal:.3f} mm, {band}; touches over {part.length:g} mm"),
        *row("Bearing", f"{part.bearing}{seat}"),
        *row("Shells", ", ".join(each.id for each in book.standards.values() if part.id in each.parts)),
        *row("Source", str(part.source)),
    ]


def _standard(standard: Standard) -> list[Line]:
    bore = standard.bore
    low, high = ("not published" if each is None else f"{each:.3f} mm" for each in (bore.lower, bore.upper))
    return [
        *wrapped(f"{standard.id}: {standard.title}"),
        *row("Bore", f"nominal {bore.nominal:.3f} mm, lower limit {low}, upper limit {high}"),
        *row("Widths", ", ".join(f"{each:g} mm" for each in standard.widths)),
        *row("Parts", ", ".join(standard.parts)),
        *row("Notes", standard.notes),
        *row("Source", str(standard.source)),
    ]

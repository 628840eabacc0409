"""Checks across sections: everything named exists, units fit, no remedy is without a voice for or against it."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from recommender.ground.flaw import Flaw
from recommender.ground.place import Place
from recommender.ground.quantity import same_kind
from recommender.ground.suggest import did_you_mean
from recommender.rulebook import required
from recommender.rulebook.book import Rule
from recommender.rulebook.gather import Entry, Gathered


def reference_flaws(gathered: Gathered) -> Iterator[Flaw]:
    """Yield a flaw for every id that names nothing, and for every unit that cannot be used where it is read."""
    yield from _reserved(gathered)
    for standard in gathered.standards.values():
        yield from _each(standard, "part", standard.model.parts, gathered.parts, "parts")
        yield from _each(standard, "standard", standard.model.confused_with, gathered.standards, "confused_with")
    for part in gathered.parts.values():
        yield from _one(part, "bearing", part.model.bearing, gathered.bearings, "bearing")
        yield from _one(part, "material", part.model.material, gathered.materials, "material")
        yield from _each(part, "standard", part.model.standards, gathered.standards, "standards")
    for fit_class in gathered.fit_classes.values():
        model = fit_class.model
        yield from _each(fit_class, "material", model.part_materials, gathered.materials, "part_materials")
        yield from _each(fit_class, "material", model.bore_materials, gathered.materials, "bore_materials")
        for end, name in model.limits.model_dump().items():
            yield from _limit(fit_class, name, required.FIT_LIMIT_UNIT, gathered, "limits", end)
    cured_on = {**gathered.materials, **{word: None for each in gathered.words.values() for word in each.model}}
    for compound in gathered.compounds.values():
        for key in ("surfaces", "with_activator"):
            yield from _each(compound, "word", getattr(compound.model, key), cured_on, key)
    yield from _list_flaws(gathered)
    yield from _unit_flaws(gathered)


def missing_flaws(gathered: Gathered, place: Place) -> Iterator[Flaw]:
    """Yield a flaw, at a place for the book as a whole, for everything formulas read by name that is missing."""
    needed: tuple[tuple[str, Iterable[str], Mapping[str, Any]], ...] = (
        ("limit", required.LIMITS, gathered.limits),
        ("material", required.MATERIALS, gathered.materials),
        ("default spread", required.SPREADS, gathered.spreads),
    )
    for kind, names, known in needed:
        for name in names:
            if name not in known:
                yield Flaw("rules.missing", place, f"the {kind} `{name}` is missing", "Restore it; formulas read it.")


def silent_remedies(gathered: Gathered, rules: Iterable[Rule]) -> Iterator[Flaw]:
    """Yield a flaw for every remedy that no rule supports, and for every one that no rule could rule out."""
    spoken = {(name, rule.stance) for rule in rules if rule.about.kind == "remedies" for name in rule.about.names}
    for remedy in gathered.remedies.values():
        if (remedy.id, "supports") not in spoken:
            message = f"no rule supports {remedy.id}, so it could never be chosen"
            yield remedy.flaw("silent-remedy", message, "Add a rule that says when it is used.", key=True)
        if (remedy.id, "rules_out") not in spoken:
            message = f"no rule could rule out {remedy.id}, and silence is not consent"
            yield remedy.flaw("silent-remedy", message, "Add a rule that says when it is not used.", key=True)


def _reserved(gathered: Gathered) -> Iterator[Flaw]:
    for section in (gathered.rules, gathered.limits, gathered.parts):
        for entry in section.values():
            if entry.layer == "shipped" and entry.id.startswith("house."):
                message = f"`{entry.id}` looks like an addition of a house"
                yield entry.flaw("reserved-id", message, "Give it an id that does not start with `house.`.")


def _each(entry: Entry[Any], kind: str, names: list[str], known: Mapping[str, Any], key: str) -> Iterator[Flaw]:
    for index, name in enumerate(names):
        yield from _one(entry, kind, name, known, key, index)


def _one(entry: Entry[Any], kind: str, name: str, known: Mapping[str, Any], *path: str | int) -> Iterator[Flaw]:
    if name not in known:
        yield entry.flaw(f"unknown-{kind}", f"there is no {kind} `{name}`", did_you_mean(name, known), *path)


def _limit(entry: Entry[Any], name: str, unit: str, gathered: Gathered, *path: str | int) -> Iterator[Flaw]:
    yield from _one(entry, "limit", name, gathered.limits, *path)
    if name in gathered.limits and gathered.limits[name].model.unit != unit:
        yield entry.flaw("unit", f"{name} is in {gathered.limits[name].model.unit}, and {unit} is read here",
                         f"State that limit in {unit}.", *path)  # fmt: skip


def _list_flaws(gathered: Gathered) -> Iterator[Flaw]:
    words = {word for entry in gathered.words.values() for word in entry.model}
    for chosen in gathered.lists.values():
        for index, word in enumerate(chosen.model):
            yield from _one(chosen, "word", word, dict.fromkeys(words), index)


def _unit_flaws(gathered: Gathered) -> Iterator[Flaw]:
    for name, unit in required.LIMITS.items():
        limit = gathered.limits.get(name)
        if limit is not None and limit.model.unit != unit:
            yield limit.flaw("unit", f"formulas read {name} in {unit}", f"State it in {unit}.", "unit")
    for name, unit in required.SPREADS.items():
        spread = gathered.spreads.get(name)
        if spread is not None and not same_kind(spread.model.within.unit, unit):
            yield spread.flaw("unit", f"formulas read {name} in {unit}", f"State it in {unit}.", "within")

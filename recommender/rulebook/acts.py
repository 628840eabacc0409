"""The single acts of a house file: whether each may be done, and the change it makes."""

from collections.abc import Iterable
from typing import Any

from recommender.ground.flaw import Flaw
from recommender.ground.quantity import Quantity, same_kind
from recommender.ground.suggest import did_you_mean
from recommender.rulebook.book import HouseChange, Limit, Rule, Rulebook
from recommender.rulebook.gather import Entry
from recommender.rulebook.models.house import Change, Replace, Signed, Withdraw
from recommender.rulebook.models.rules import RuleModel
from recommender.rulebook.sealing import grids_reached, limits_reached

Made = HouseChange | list[Flaw]
LIKE = 1e-9


def limit_change(entry: Entry[Change], shipped: Rulebook, sealed: Iterable[str]) -> Made:
    """Return the change of a limit, or the flaws that forbid it."""
    act = entry.model
    limit = shipped.limits.get(act.change)
    if limit is None:
        message = f"there is no limit `{act.change}`"
        return [entry.flaw("house-unknown", message, did_you_mean(act.change, shipped.limits), "change")]
    wrong = [flaw for key in ("to", "was") if (flaw := _unit_flaw(entry, limit, key)) is not None]
    if wrong:
        return wrong
    to, was = act.to.to(limit.unit), act.was.to(limit.unit)
    wrong = [*_value_flaws(entry, limit, to, was), *_permission_flaws(entry, limit, to, shipped, set(sealed))]
    made = _change("change", entry, act, limit.shown, _shown(act.to), not limit.stricter(to))
    return [*wrong, *_date_flaws(entry, act)] or made


def withdrawn_change(entry: Entry[Withdraw], shipped: Rulebook) -> Made:
    """Return the withdrawal of a rule, or the flaws that forbid it."""
    rule = _rule(shipped, entry.model.withdraw)
    if rule is None:
        return [_unknown_rule(entry, entry.model.withdraw, shipped, "withdraw")]
    flaws = [*_seal_flaws(entry, rule, "withdraw"), *_date_flaws(entry, entry.model)]
    return flaws or _change("withdraw", entry, entry.model, rule.title, "", rule.stance != "supports")


def replaced_change(entry: Entry[Replace], shipped: Rulebook) -> Made:
    """Return the replacement of a rule or grid, or the flaws that forbid it. What replaces a rule counts as looser."""
    act = entry.model
    if act.rule is None:
        return _replaced_grid(entry, shipped)
    rule = _rule(shipped, act.replace)
    if rule is None:
        return [_unknown_rule(entry, act.replace, shipped, "replace")]
    flaws = [*_seal_flaws(entry, rule, "replace"), *_date_flaws(entry, act)]
    if act.rule.id != rule.id:
        message = f"the rule that replaces {rule.id} has another id"
        flaws.append(entry.flaw("house-replace", message, f"Write `id: {rule.id}`.", "rule", "id"))
    if not _same_subject(act.rule, rule):
        message = f"the rule that replaces {rule.id} is about something else"
        flaws.append(entry.flaw("house-replace", message, "Keep the subject of the shipped rule.", "rule", "about"))
    return flaws or _change("replace", entry, act, rule.title, act.rule.title, True)


def _replaced_grid(entry: Entry[Replace], shipped: Rulebook) -> Made:
    act = entry.model
    grid = shipped.grids.get(act.replace)
    if grid is None or act.grid is None:
        message = f"there is no grid `{act.replace}`"
        return [entry.flaw("house-unknown", message, did_you_mean(act.replace, shipped.grids), "replace")]
    flaws = _date_flaws(entry, act)
    held = [rule.id for rule in shipped.rules if rule.sealed and grid in grids_reached(rule, shipped)]
    if held:
        message = f"{grid.id} holds up the sealed rule {held[0]}, and no house act touches it"
        flaws.append(entry.flaw("house-sealed", message, "Remove the act.", "replace"))
    if act.grid.answers != grid.answers:
        message = f"the grid that replaces {grid.id} answers something else"
        flaws.append(entry.flaw("house-replace", message, f"Write `answers: {grid.answers}`.", "grid", "answers"))
    return flaws or _change("replace", entry, act, grid.title, act.grid.title, True)


def added_change(entry: Entry[Any], section: str) -> Made:
    """Return the addition of a rule, limit or part, or the flaws that forbid it."""
    model = entry.model
    shown = model.meaning if section == "limits" else model.title
    looser = section == "rules" and model.finding.stance == "supports"
    return _date_flaws(entry, model.added, "added") or _change("add", entry, model.added, "", shown, looser)


def _change(kind: Any, entry: Entry[Any], signed: Signed, before: str, after: str, looser: bool) -> HouseChange:
    return HouseChange(
        kind, entry.id, before, after, signed.reason, signed.by, signed.dated, signed.review_by, looser, entry.place(),
        tuple(signed.accepts),
    )  # fmt: skip


def _unit_flaw(entry: Entry[Change], limit: Limit, key: str) -> Flaw | None:
    given: Quantity = getattr(entry.model, key)
    if same_kind(given.unit, limit.unit):
        return None
    if limit.unit == "1":
        return entry.flaw("unit", f"{limit.id} is a plain number", f"Write `{key}:` without a unit.", key)
    return entry.flaw("unit", f"{limit.id} is in {limit.unit}", f"Write `{key}:` with that unit.", key)


def _value_flaws(entry: Entry[Change], limit: Limit, to: float, was: float) -> list[Flaw]:
    if abs(was - limit.value) > LIKE * max(1.0, abs(limit.value)):
        message = f"the shipped value of {limit.id} is {limit.shown}, no longer {_shown(entry.model.was)}"
        return [entry.flaw("house-stale", message, "Look at the change again, then correct `was`.", "was")]
    if to == limit.value:
        return [entry.flaw("house-same", f"this leaves {limit.id} as it is", "Remove the act.", "to")]
    return []


def _permission_flaws(
    entry: Entry[Change], limit: Limit, to: float, shipped: Rulebook, sealed: set[str]
) -> list[Flaw]:
    if limit.shop_may == "nothing":
        message = f"{limit.id} may not be changed by a shop"
        return [entry.flaw("house-forbidden", message, "Remove the act.", "change")]
    if limit.stricter(to) or to == limit.value:
        return []
    stricter = f"Stricter is {limit.safe_side} than {limit.shown}."
    if limit.shop_may == "tighten":
        return [entry.flaw("house-looser", f"a shop may only make {limit.id} stricter", stricter, "to")]
    held = [rule.id for rule in shipped.rules if rule.id in sealed and limit.id in limits_reached(rule, shipped)]
    if held:
        message = f"{limit.id} holds up the sealed rule {held[0]}, so it may only be made stricter"
        return [entry.flaw("house-looser", message, stricter, "to")]
    return []


def _date_flaws(entry: Entry[Any], signed: Signed, *path: str) -> list[Flaw]:
    if signed.review_by > signed.dated:
        return []
    message = "the review is not after the day the change was made"
    return [entry.flaw("house-dates", message, "Correct `dated` or `review_by`.", *path, "review_by")]


def _rule(shipped: Rulebook, rule_id: str) -> Rule | None:
    return next((rule for rule in shipped.rules if rule.id == rule_id), None)


def _unknown_rule(entry: Entry[Any], name: str, shipped: Rulebook, key: str) -> Flaw:
    if name in shipped.grids:
        message = f"`{name}` is a grid, and rules ask what it answers"
        return entry.flaw("house-unknown", message, "Write `replace:` with the full `grid:` instead.", key)
    known = [rule.id for rule in shipped.rules]
    return entry.flaw("house-unknown", f"there is no rule `{name}`", did_you_mean(name, known), key)


def _seal_flaws(entry: Entry[Any], rule: Rule, key: str) -> list[Flaw]:
    if not rule.sealed:
        return []
    message = f"{rule.id} is sealed: it protects people, and no house act touches it"
    return [entry.flaw("house-sealed", message, "Remove the act; add a stricter rule beside it if you need one.", key)]


def _same_subject(model: RuleModel, rule: Rule) -> bool:
    about = model.about
    if rule.about.kind == "remedies":
        return about.remedies is not None and set(about.remedies) == set(rule.about.names)
    if rule.about.kind == "cause":
        return about.cause == rule.about.names[0]
    return about.kind == rule.about.kind


def _shown(quantity: Quantity) -> str:
    return str(quantity)

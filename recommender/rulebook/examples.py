"""The examples in a rule: read, and run."""

from collections.abc import Collection, Iterator
from dataclasses import replace

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, word
from recommender.ground.flaw import Flaw
from recommender.ground.suggest import did_you_mean
from recommender.logic.evaluate import checks_of, evaluate
from recommender.reading.document import Path
from recommender.rulebook.book import Example, Rule
from recommender.rulebook.gather import Entry, Gathered
from recommender.rulebook.models.rules import RuleModel, SpreadNumber
from recommender.rulebook.numbers import Wrong, number_of
from recommender.rulebook.resolving import word_operand


def with_examples(rule: Rule, entry: Entry[RuleModel], gathered: Gathered, flaws: list[Flaw]) -> Rule:
    """Return the rule with its examples; what is wrong with them is added to `flaws`."""
    made: list[Example] = []
    for index, model in enumerate(entry.model.examples):
        facts: dict[str, FactValue] = {}
        for name, given in model.facts.items():
            path: Path = ("examples", index, "facts", name)
            found = value_of(name, given, rule.id, rule.facts, gathered)
            if isinstance(found, Wrong):
                at_key = found.check in ("unknown-fact", "not-asked")
                flaws.append(entry.flaw(found.check, found.message, found.advice, *path, key=at_key))
            else:
                facts[name] = found
        place = entry.place("examples", index)
        made.append(Example(model.name, facts, model.expect, place))
    return replace(rule, examples=tuple(made))


def unmet_examples(rule: Rule, entry: Entry[RuleModel]) -> Iterator[Flaw]:
    """Yield a flaw for every example that does not give what it expects, and for a missing outcome."""
    for index, example in enumerate(rule.examples):
        result = evaluate(rule.condition, example.facts)
        if result.outcome != example.expect:
            found = "; ".join(f"{check.leaf.fact.id} {check.outcome}" for check in checks_of(result))
            message = f"the example `{example.name}` expects {example.expect}, but the rule is {_shown(result.outcome)}"
            yield entry.flaw("example", message, f"Correct rule or example ({found}).", "examples", index, "expect")
    for outcome in ("holds", "fails"):
        if not any(each.expect == outcome for each in rule.examples):
            message = f"no example of {rule.id} expects `{outcome}`"
            yield entry.flaw("example-missing", message, f"Add one with `expect: {outcome}`.", "examples", key=True)


def _shown(outcome: str) -> str:
    return {"holds": "fulfilled (holds)", "fails": "not fulfilled (fails)"}.get(outcome, outcome)


def value_of(
    name: str, given: object, asking: str, asked: Collection[str], gathered: Gathered
) -> FactValue | Wrong:
    """Return the value an example gives a fact, or what is wrong with it; `asking` is the id of the rule or grid."""
    fact = CATALOGUE.get(name)
    if fact is None:
        return Wrong("unknown-fact", f"there is no fact `{name}`", did_you_mean(name, asked))
    if name not in asked:
        return Wrong("not-asked", f"{asking} does not ask {name}", did_you_mean(name, asked))
    if fact.kind == "number":
        return _number(fact, given)
    if fact.kind == "flag":
        return word(name, given) if isinstance(given, bool) else Wrong(
            "word", f"`{given}` is neither true nor false", "Write `true` or `false`.")
    found = word_operand(given, fact, gathered)
    return found if isinstance(found, Wrong) else word(name, str(found.value))


def _number(fact: Fact, given: object) -> FactValue | Wrong:
    several = (given.value, given.low, given.high) if isinstance(given, SpreadNumber) else (given, given, given)
    found = [number_of(each, fact) for each in several]
    wrong = next((each for each in found if isinstance(each, Wrong)), None)
    if wrong is not None:
        return wrong
    value, low, high = (float(each) for each in found if not isinstance(each, Wrong))
    if not low <= value <= high:
        return Wrong("example", f"{fact.id} lies outside its own interval", "Correct value, low or high.")
    return FactValue(fact.id, value, low, high)

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from recommender.bench.load import LoadedCase
from recommender.deriving.derive import derive
from recommender.deriving.derived import Derived, OptionFacts
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue
from recommender.ground.flaw import Flawed
from recommender.rulebook.book import Rulebook

Make = Callable[..., Derived]
EVERY_OPTION = {"part", "fit", "compound", "strain", "bearing", "grip"}
ONLY_FOR = {"make": {"undersize_cup", "oversize_cup", "stepped_cup"}, "cut": {"ream", "sleeve"}, "sleeve": {"sleeve"}}
ONLY_COMPOUND = {"compound.class", "compound.fills"}
OF_A_HOUSE = "shop."
ONLY_STEPPED = {"make.step", "make.land_length"}


def _option(found: Derived, remedy: str, part: str = "") -> OptionFacts:
    return next(each for each in found.sides["drive"].options if each.remedy == remedy and part in each.part)


def test_every_fact_of_the_catalogue_is_derived_for_a_sound_frame(derived: Make) -> None:
    found = derived()
    by_scope: dict[str, set[str]] = {"frame": set(found.frame), "side": set(found.sides["drive"].facts)}
    by_scope["option"] = {fact for option in found.sides["drive"].options for fact in option.facts}
    for fact in CATALOGUE.values():
        assert fact.id in by_scope[fact.scope] or fact.id.startswith(OF_A_HOUSE), fact.id


@pytest.mark.parametrize(
    "remedy", ["press_as_is", "press_with_compound", "undersize_cup", "stepped_cup", "ream", "sleeve"]
)
def test_an_option_carries_every_fact_that_its_remedy_can_be_asked_about(derived: Make, remedy: str) -> None:
    facts = _option(derived(), remedy).facts
    for fact in CATALOGUE.values():
        family = fact.id.split(".")[0]
        wanted = fact.scope == "option" and (family in EVERY_OPTION or remedy in ONLY_FOR.get(family, set()))
        wanted = wanted and (fact.id not in ONLY_COMPOUND or remedy == "press_with_compound")
        if wanted and (fact.id not in ONLY_STEPPED or remedy == "stepped_cup"):
            assert fact.id in facts, fact.id


def test_everything_a_fact_rests_on_is_known(derived: Make, book: Rulebook) -> None:
    gauges = [{"kind": "go", "size": "45.950 mm", "result": "enters_fully"}]
    found = derived({"sides.drive.gauges": gauges, "frame.spindle": "30 mm"})
    side = found.sides["drive"]
    scopes: list[Mapping[str, FactValue]] = [found.frame, side.facts, *(option.facts for option in side.options)]
    for scope in scopes:
        for value in scope.values():
            for name in value.inputs:
                assert _is_known(name, found, book), f"{value.fact} rests on {name}"


def _is_known(name: str, found: Derived, book: Rulebook) -> bool:
    kind, _, rest = name.partition(":")
    known: dict[str, Any] = {"limit": book.limits, "part": book.parts, "bearing": book.bearings}
    if kind == "case":
        return name in found.measured
    if kind == "grid":
        return rest.partition("/")[0] in book.grids
    return rest in known[kind] if kind in known else name in CATALOGUE


def test_numbers_lie_inside_their_own_interval_and_inside_the_catalogue_s_span(derived: Make) -> None:
    found = derived()
    side = found.sides["drive"]
    for scope in (found.frame, side.facts, *(option.facts for option in side.options)):
        for value in scope.values():
            if value.value is None or value.low is None or value.high is None:
                continue
            span = CATALOGUE[value.fact].span
            assert value.low <= value.value <= value.high
            assert span is None or span[0] <= value.low <= value.high <= span[1], value.fact


def test_a_word_the_book_does_not_know_is_a_flaw_at_its_place(
    case_with: Callable[..., LoadedCase], book: Rulebook
) -> None:
    with pytest.raises(Flawed) as raised:
        derive(case_with({"frame.standard": "pf3O", "history.consent": ["reem"]}), book)
    assert [flaw.check for flaw in raised.value.flaws] == ["case.unknown-word", "case.unknown-word"]
    assert "`pf30`" in raised.value.flaws[0].advice
    assert "`ream`" in raised.value.flaws[1].advice
    assert all(flaw.place.line > 1 and flaw.shown for flaw in raised.value.flaws)


def test_the_same_case_derives_to_the_same_values(derived: Make) -> None:
    assert derived() == derived()


def test_a_side_that_was_not_read_has_no_size_and_no_option(derived: Make) -> None:
    side = {"readings": "none", "reason": "cracked, not measured"}
    found = derived({"sides.drive": side})
    assert not found.sides["drive"].options
    assert not found.sides["drive"].facts["bore.mean_diameter"].known
    assert found.sides["non_drive"].options

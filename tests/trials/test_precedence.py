"""The bench's order of precedence, fifteen points, each visible as rules that a shipped case meets.

Common practice, no source, but for the first (frame tests count a visible crack as failure: ISO 4210 as adopted, 16 CFR
1512.14). A point names the rules that carry it and the case that shows it; what the order of remedies, the verdict of
the sides or conformity carries is asked of the advice itself.
"""

from functools import cache
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.deciding.answer import Advice
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from recommender.trials.expected import rule_outcome

CASES = Path(__file__).resolve().parents[2] / "cases"
HOLDS_IN = {
    "1 damage before size": [("damage.crack-seen", "refuse/gate-2021")],
    "2 insert untested or moving": [
        ("evidence.insert-untested", "measure_again/upland-2136"), ("damage.insert-moves", "refuse/salt-2024"),
    ],
    "3 data faults": [
        ("evidence.too-few-readings", "measure_again/pier-2016"),
        ("evidence.ovality-not-seen", "measure_again/stork-2167"),
        ("evidence.too-far-from-20", "measure_again/depot-2047"),
        ("evidence.beyond-the-reach", "measure_again/cumin-2193"),
    ],
    "4 standard not proved": [
        ("identity.not-named", "measure_again/cedar-2118"), ("identity.contradicted", "measure_again/drift-2119"),
    ],
    "5 alignment": [("alignment.not-measured", "proceed/anchor-2141")],
    "6 form": [("form.too-oval", "refuse/kiln-2014"), ("stepped-cup.tapered-bore", "proceed/mill-2027")],
    "7 too small": [
        ("ream.small-or-oval", "proceed/orchard-2052"), ("safety.fibre-is-never-cut", "proceed/lane-2041"),
        ("undersize-cup.smaller-than-ordinary", "proceed/orchard-2052"),
    ],
    "8 too large": [
        ("oversize-cup.larger-than-ordinary", "proceed/quay-2012"), ("sleeve.large-or-oval", "proceed/forge-2033"),
        ("compound.light-fit", "proceed/ginger-2192"),
    ],
    "9 in size, by the measured part": [
        ("press-as-is.part-suits", "proceed/lane-2041"), ("part.not-measured", "proceed/fennel-2191"),
    ],
    "11 least cut, then consent": [("safety.irreversible-work", "proceed/forge-2033")],
    "12 warranty first": [("safety.warranty-open", "proceed/orchard-2052")],
}  # fmt: skip


@cache
def book() -> Rulebook:
    return load()


@cache
def advice(case: str) -> Advice:
    return advise(load_case(CASES / f"{case}.yaml"), book())


@pytest.mark.parametrize(
    ("point", "rule", "case"), [(point, *each) for point, rules in HOLDS_IN.items() for each in rules]
)
def test_a_point_is_carried_by_a_rule_that_a_case_meets(point: str, rule: str, case: str) -> None:
    assert rule in {each.id for each in book().rules}, point
    assert rule_outcome(advice(case), rule)[0] == "holds", point


def test_10_inside_the_guard_band_the_fit_is_decided_and_conformity_is_not_proved() -> None:
    made = advice("proceed/borage-2190")
    assert made.frame.verdict == "proceed"
    assert "not_proved" in {side.conformity.size for side in made.sides.values()}
    assert not [fact for rule in book().rules for fact in rule.facts if fact.startswith("conformity.")]


def test_11_the_order_of_remedies_is_least_invasive_first_and_what_cannot_be_undone_last() -> None:
    reversible = [each.reversible for each in book().remedies]
    assert [each.id for each in book().remedies][:2] == ["press_as_is", "press_with_compound"]
    assert reversible == sorted(reversible, reverse=True)
    assert {each.id for each in book().remedies if not each.reversible} == {
        each.id for each in book().remedies if each.consent
    }


def test_13_a_side_beside_a_refused_one_is_held() -> None:
    sides = advice("refuse/kiln-2014").sides
    assert {each.verdict for each in sides.values()} == {"refuse", "held"}


def test_14_without_a_path_every_remedy_says_what_stopped_it() -> None:
    refused = next(each for each in advice("refuse/kiln-2014").sides.values() if each.verdict == "refuse")
    for remedy in refused.remedies:
        for option in remedy.options:
            stopping = [each for each in option.findings if each.counts_as in ("bars", "nothing")]
            assert option.outcome == "not_applicable" or stopping, remedy.id


def test_15_every_finding_carries_rule_limit_source_and_reading() -> None:
    for side in advice("proceed/lane-2041").sides.values():
        found = [each for remedy in side.remedies for option in remedy.options for each in option.findings]
        assert found
        for each in found:
            assert each.rule
            assert each.source.kind
            assert all(check.wanted and check.found.shown for check in each.checks)
        assert any(each.outcome != "cleared" for each in side.remedies)

"""What grids make of the facts of a case, and how it is traced."""

from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.deciding.trace import Derived, LimitUsed
from recommender.deriving.by_grid import BY_GRID, answered
from recommender.deriving.derive import derive
from recommender.facts.value import number
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from recommender.trials.run_cases import case_files


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load()


def case(name: str) -> Path:
    return next(path for path in case_files(shipped_cases()) if path.stem == name)


def test_every_scope_has_its_answers(book: Rulebook) -> None:
    derived = derive(load_case(case("mere-2153")), book)
    assert derived.frame["frame.bearing"].fact == "frame.bearing"
    for name, side in derived.sides.items():
        assert side.facts["side.name"].word == name
        cures = {option.facts["compound.cures"].word for option in side.options
                 if option.facts["part.material"].word == "steel" and option.facts["compound.gap"].known}  # fmt: skip
        assert cures <= {"with_activator", "not_at_all", None}


def test_an_answer_rests_on_its_inputs_its_limits_and_the_row(book: Rulebook) -> None:
    trace = advise(load_case(case("mere-2153")), book).trace
    nodes = [node for node in trace.nodes.values() if isinstance(node, Derived) and node.fact == "compound.cures"]
    node = next(each for each in nodes if each.shown == "with activator")
    below = {trace.nodes[name] for name in node.rests_on}
    assert {each.fact for each in below if isinstance(each, Derived)} == {
        "part.material", "compound.gap", "frame.bore_material"
    }  # fmt: skip
    limits = {each.limit: each for each in below if isinstance(each, LimitUsed)}
    assert set(limits) == {"compound.widest_gap", "compound.cures"}
    row = limits["compound.cures"]
    assert row.shown.startswith("row 4: part.material aluminium or steel, compound.gap under 100.0 um")
    assert row.place is not None
    assert row.place.file.endswith("remedies.yaml")


def test_a_number_across_two_rows_leaves_the_answers_it_may_have(book: Rulebook) -> None:
    derived = derive(load_case(case("mere-2153")), book)
    side = derived.sides["drive"]
    facts = {**side.options[0].facts, "bearing.clearance_left": number("bearing.clearance_left", 0, -8, 8)}
    round_bore = {**side.facts, "bore.ovality": number("bore.ovality", 3, 1, 5)}
    other = derived._replace(sides={
        **derived.sides, "drive": side._replace(facts=round_bore, options=(side.options[0]._replace(facts=facts),))
    })  # fmt: skip
    found = answered(other, book, {"bearing.class_advice"}).sides["drive"].options[0].facts["bearing.class_advice"]
    assert not found.known
    assert found.could_be == ("as_named", "looser_class_or_fit")
    assert found.why_unknown == "it may be as named or looser class or fit"


def test_answering_again_changes_nothing(book: Rulebook) -> None:
    derived = derive(load_case(case("mere-2153")), book)
    assert answered(derived, book) == derived
    assert {grid.answers for grid in book.grids.values()} <= BY_GRID

"""What another book would have decided, confirmed by running both books in full."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import LoadedCase, load_case
from recommender.deciding.answer import Advice
from recommender.deciding.decide import decide, decide_again
from recommender.deciding.milder import changes, standing
from recommender.deciding.runs import every_run
from recommender.deriving.derive import derive
from recommender.deriving.derived import Derived
from recommender.ground.flaw import Flawed
from recommender.reading.shipped import shipped_cases
from recommender.records.case_text import load_case_text
from recommender.records.decided import read_decided
from recommender.records.record import record_of
from recommender.records.store import keep
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import HouseChange, Rulebook
from recommender.rulebook.folders import read_folder, shipped_folder
from recommender.rulebook.gather import Entry, gather
from recommender.rulebook.load import load
from recommender.rulebook.seals import SEALED_IDS
from recommender.trials.books import book_named
from recommender.trials.compare import Between, compare_cases
from recommender.trials.compare_records import compare_records, stored_facts
from recommender.trials.run_cases import case_files
from recommender.trials.standings import standing_of

SOME = ("crane-2082", "bridge-2057", "lane-2041", "hill-2036")
Edited = Callable[[str, float], Rulebook]


@pytest.fixture(scope="module")
def edited() -> Edited:
    """The shipped book with one limit loosened by so many um; examples are not run."""
    documents = read_folder(shipped_folder())

    def loosened(name: str, by: float) -> Rulebook:
        gathered = gather(documents)
        entry = gathered.limits[name]
        assert entry.model.unit == "um"
        value = entry.model.value + (-by if entry.model.safe_side == "higher" else by)
        moved = entry.model.model_copy(update={"value": value})
        gathered.limits[name] = Entry(name, moved, entry.document, entry.path)
        return book_of(gathered, SEALED_IDS, run="")

    return loosened


@pytest.fixture(scope="module")
def cases() -> dict[str, LoadedCase]:
    found = {path.stem: path for path in case_files(shipped_cases())}
    return {name: load_case(found[name]) for name in SOME}


@pytest.fixture(scope="module")
def shipped() -> Rulebook:
    return load()


@pytest.fixture(scope="module")
def advices(cases: dict[str, LoadedCase], shipped: Rulebook) -> dict[str, Advice]:
    return {name: advise(loaded, shipped) for name, loaded in cases.items()}


@pytest.fixture(scope="module")
def facts(cases: dict[str, LoadedCase], shipped: Rulebook) -> dict[str, Derived]:
    return {name: derive(loaded, shipped) for name, loaded in cases.items()}


def test_a_standing_is_that_of_the_advice(
    advices: dict[str, Advice], facts: dict[str, Derived], shipped: Rulebook
) -> None:
    for name, advice in advices.items():
        assert standing_of(decide(facts[name], shipped), shipped) == standing(advice), name


@pytest.mark.parametrize("limit", ["ring.drift_limit", "clean_up.least", "polymer_cup.bar_low"])
def test_a_limit_loosened_by_5_um_moves_exactly_the_cases_that_full_runs_move(
    limit: str, cases: dict[str, LoadedCase], advices: dict[str, Advice], shipped: Rulebook, edited: Edited
) -> None:
    new = edited(limit, 5.0)
    found = compare_cases(_paths(), lambda day: shipped, lambda day: new)
    in_full = {
        name: changes(standing(advices[name]), standing(advise(loaded, new))) for name, loaded in cases.items()
    }
    assert found.frames == len(SOME)
    assert not found.unjudged
    for name, expected in in_full.items():
        assert tuple(each.change for each in found.moved if each.case == name) == expected, name
    flips = {each.flip.rule for each in found.moved if each.flip}
    assert all(limit in new.rule(rule).limits or limit.startswith("polymer") for rule in flips)
    if limit == "ring.drift_limit":
        assert {each.case for each in found.moved} == {"crane-2082"}
        assert found.unaccepted == ("crane-2082",)
        flip = next(each.flip for each in found.moved if each.change.where == "frame")
        assert flip is not None
        assert (flip.rule, flip.fact, flip.before, flip.after) == (
            "evidence.ring-drifted", "evidence.ring_drift", "holds", "fails"
        )  # fmt: skip
        assert (flip.margin_before, flip.margin_after) == (5.0, 0.0)


def test_an_accepted_case_is_not_asked_about_again(shipped: Rulebook, edited: Edited) -> None:
    act = HouseChange("change", "ring.drift_limit", "", "", "", "", date(2026, 1, 1), date(2027, 1, 1), True,
                      shipped.limits["ring.drift_limit"].place, ("crane-2082",))  # fmt: skip
    new = replace(edited("ring.drift_limit", 5.0), house_changes=(act,))
    path = [each for each in _paths() if each.stem == "crane-2082"]
    found = compare_cases(path, lambda day: shipped, lambda day: new)
    assert found.of("milder")
    assert found.unaccepted == ()


def test_tightening_back_is_stricter(facts: dict[str, Derived], shipped: Rulebook, edited: Edited) -> None:
    derived = facts["crane-2082"]
    moved = Between(edited("ring.drift_limit", 5.0), shipped).moved("crane-2082", derived, derived)
    assert {each.change.direction for each in moved} == {"stricter"}


def test_the_same_book_moves_nothing(facts: dict[str, Derived], shipped: Rulebook) -> None:
    between = Between(shipped, shipped)
    assert between.same_facts
    assert [between.moved(name, derived, derived) for name, derived in facts.items()] == [()] * len(facts)


def test_a_limit_that_formulas_read_is_derived_again(shipped: Rulebook, edited: Edited) -> None:
    assert not Between(shipped, edited("polymer_cup.bar_low", 5.0)).same_facts
    assert Between(shipped, edited("ring.drift_limit", 5.0)).same_facts


def test_records_move_as_their_cases_do(
    tmp_path: Path, cases: dict[str, LoadedCase], facts: dict[str, Derived], advices: dict[str, Advice],
    shipped: Rulebook, edited: Edited,
) -> None:
    for name, loaded in cases.items():
        keep(record_of(loaded, advices[name], shipped), tmp_path)
    new = edited("compound.light_fit", 5.0)
    of_records = compare_records([tmp_path], lambda day: shipped, lambda day: new)
    between = Between(shipped, new)
    of_cases = [each for name, derived in facts.items() for each in between.moved(name, derived, derived)]
    assert sorted(map(str, of_records.moved)) == sorted(map(str, of_cases))
    assert of_records.moved


def test_stored_facts_decide_the_same(
    tmp_path: Path, cases: dict[str, LoadedCase], facts: dict[str, Derived], advices: dict[str, Advice],
    shipped: Rulebook,
) -> None:
    for name, loaded in cases.items():
        decided = read_decided(keep(record_of(loaded, advices[name], shipped), tmp_path))
        again = standing_of(decide(stored_facts(decided.advice), shipped), shipped)
        assert again == standing_of(decide(facts[name], shipped), shipped), name


def test_a_flawed_case_is_told_of(tmp_path: Path, shipped: Rulebook) -> None:
    (tmp_path / "bad.yaml").write_text("case: x\n")
    found = compare_cases([tmp_path], lambda day: shipped, lambda day: shipped)
    assert [name for name, _ in found.unjudged] == [str(tmp_path / "bad.yaml")]


def test_books_by_name(tmp_path: Path) -> None:
    day = date(2026, 6, 1)
    assert book_named("shipped")(day).fingerprint == book_named(str(shipped_folder()))(day).fingerprint
    (tmp_path / "a.yaml").write_text(
        "house: [{change: polymer_cup.aim_low, to: 35 um, was: 30 um, reason: a, by: b, dated: 2026-01-01, "
        "review_by: 2027-01-01}]"
    )
    assert book_named(str(tmp_path))(day).limits["polymer_cup.aim_low"].value == 35
    with pytest.raises(Flawed):
        book_named(str(tmp_path / "nowhere"))


def _paths() -> list[Path]:
    return [path for path in case_files(shipped_cases()) if path.stem in SOME]


def test_a_part_of_the_house_is_not_told_as_a_rule_that_is_new(tmp_path: Path) -> None:
    added = "added: {reason: a, by: b, dated: 2026-01-01, review_by: 2027-01-01}"
    (tmp_path / "a.yaml").write_text(
        "house: [{change: aluminium_cup_in_carbon.bar_high, to: 60 um, was: 80 um, reason: a, by: b, "
        "dated: 2026-01-01, review_by: 2027-01-01}]\n"
        "parts: {house.cup: {title: A cup, kind: cup, material: aluminium, contact_length: 10 mm, seat: 42 mm, "
        "od: {nominal: 46.06 mm, lower: 46.055 mm, upper: 46.065 mm}, seat_interference: {low: 0 um, high: 30 um}, "
        f"bearing: '6806', turnable: true, standards: [pf30], source: {{kind: shop, text: c}}, {added}}}}}\n"
    )
    paths = [path for path in case_files(shipped_cases()) if path.stem == "mill-2027"]
    found = compare_cases(paths, book_named("shipped"), book_named(str(tmp_path)))
    flips = [each.flip for each in found.of("stricter")]
    assert flips
    assert {flip.rule for flip in flips if flip} == {"turned-cup.no-window"}
    assert all(flip is not None and (flip.before, flip.after) == ("fails", "holds") for flip in flips)


@pytest.mark.parametrize("rule", ["bearing.ring-stress", "compound.paint-in-the-bore", "evidence.ring-drifted"])
def test_deciding_again_only_what_differs_is_deciding_anew(
    rule: str, facts: dict[str, Derived], shipped: Rulebook
) -> None:
    left = replace(shipped, rules=tuple(each for each in shipped.rules if each.id != rule))
    alone = replace(shipped, rules=(shipped.rule(rule),))
    nothing = replace(shipped, rules=())
    for derived in facts.values():
        with_it, without = decide(derived, shipped), decide(derived, left)
        for again, anew in (
            (decide_again(with_it, derived, left, nothing, {rule}), without),
            (decide_again(without, derived, shipped, alone, {rule}), with_it),
        ):
            assert standing_of(again, shipped) == standing_of(anew, shipped)
            assert [(run.id, run.outcome) for run in every_run(again.runs)] == [
                (run.id, run.outcome) for run in every_run(anew.runs)
            ]
            assert [side.reason for side in again.sides.values()] == [side.reason for side in anew.sides.values()]


def test_a_replaced_grid_moves_what_deriving_anew_moves(
    tmp_path: Path, cases: dict[str, LoadedCase], facts: dict[str, Derived], advices: dict[str, Advice],
    shipped: Rulebook,
) -> None:
    """A grid under which no compound cures at all, asked by a rule that rules the compound out."""
    grid = shipped.grids["compound.cures"]
    rows = tuple(replace(row, answer="with_activator") for row in grid.table.rows)
    new_grid = replace(grid, table=replace(grid.table, rows=rows))
    bar = replace(shipped.rule("compound.activator"), stance="rules_out")
    rules = tuple(bar if each.id == bar.id else each for each in shipped.rules)
    old = replace(shipped, rules=rules)
    new = replace(old, grids={**shipped.grids, grid.id: new_grid})
    between = Between(old, new)
    assert between.same_facts
    for name, loaded in cases.items():
        keep(record_of(loaded, advices[name], shipped), tmp_path)
    of_records = compare_records([tmp_path], lambda day: old, lambda day: new)
    anew = [each for name, loaded in cases.items()
            for each in between.moved(name, derive(loaded, old), derive(loaded, new))]  # fmt: skip
    again = [each for name, derived in facts.items() for each in between.moved(name, derived, derived)]
    assert sorted(map(str, again)) == sorted(map(str, anew)) == sorted(map(str, of_records.moved))
    assert of_records.moved
    assert {each.flip.rule for each in of_records.moved if each.flip} == {"compound.activator"}


@pytest.mark.parametrize("parts", [
    "  - {part: polymer_cup_46, od: 46.032 mm, bearing_fitted: fitted}\n",
    "  - {part: polymer_cup_46, side: drive, od: 46.032 mm, bearing_fitted: fitted}\n"
    "  - {part: polymer_cup_46, side: non_drive, od: 46.031 mm, bearing_fitted: fitted}\n",
])  # fmt: skip
def test_one_part_in_hand_is_one_part_in_a_record_too(
    parts: str, tmp_path: Path, cases: dict[str, LoadedCase], shipped: Rulebook
) -> None:
    text = re.sub(r"(?m)^parts:\n(?:  - .*\n)+", f"parts:\n{parts}", cases["lane-2041"].document.text)
    loaded = load_case_text(text.partition("expect:")[0], "lane-2041.yaml")
    derived = derive(loaded, shipped)
    decided = read_decided(keep(record_of(loaded, advise(loaded, shipped), shipped), tmp_path))
    one, two = decide(derived, shipped), decide(stored_facts(decided.advice), shipped)
    assert standing_of(one, shipped) == standing_of(two, shipped)
    assert one.frame.reasons == two.frame.reasons
    chosen = [[side.chosen and side.chosen.option.part for side in each.sides.values()] for each in (one, two)]
    assert chosen[0] == chosen[1]
    in_hand = [each for each in chosen[0] if each and "in hand" in each]
    assert len(in_hand) == len(set(in_hand))

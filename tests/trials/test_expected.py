"""What a case expected against what was found: misses are seen, and nothing else."""

from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.expect import Expect
from recommender.bench.load import load_case
from recommender.deciding.answer import Advice
from recommender.rulebook.load import load
from recommender.trials.expected import missed, rule_outcome
from recommender.trials.malformed import ExpectedFlaw, flaws_found, shows
from recommender.trials.run_cases import run_cases

CASES = Path(__file__).resolve().parents[2] / "cases"


@pytest.fixture(scope="module")
def kiln() -> Advice:
    return advise(load_case(CASES / "refuse" / "kiln-2014.yaml"), load())


def expect(**changed: object) -> Expect:
    return Expect.model_validate({"frame": "refuse", "drive": "refuse", "non_drive": "held", **changed})


def test_met(kiln: Advice) -> None:
    assert missed(expect(by_hand="46.030 - 45.940 = 0.090 mm oval"), kiln) == ()


@pytest.mark.parametrize(
    ("changed", "about", "found"),
    [
        ({"frame": "proceed"}, "frame", "refuse"),
        ({"drive": "press_as_is"}, "drive", "refuse"),
        ({"non_drive": "press_as_is"}, "non_drive", "held"),
        ({"rules": {"form.too-oval": "fails"}}, "rule form.too-oval", "holds"),
        ({"rules": {"no.such-rule": "holds"}}, "rule no.such-rule", "not run"),
        ({"remedies": {"drive": {"ream": "cleared"}}}, "ream, drive", "ruled_out"),
        ({"remedies": {"drive": {"hammer": "cleared"}}}, "hammer, drive", "no such remedy"),
    ],
)
def test_missed(changed: dict[str, object], about: str, found: str, kiln: Advice) -> None:
    (miss,) = missed(expect(**changed), kiln)
    assert (miss.about, miss.found) == (about, found)


def test_the_reason_of_a_miss_names_the_rules(kiln: Advice) -> None:
    (miss,) = missed(expect(remedies={"drive": {"ream": "cleared"}}), kiln)
    assert "safety.fibre-is-never-cut" in miss.reason


def test_the_strictest_outcome_of_a_rule_counts(kiln: Advice) -> None:
    assert rule_outcome(kiln, "form.too-oval")[0] == "holds"
    assert rule_outcome(kiln, "damage.crack-seen")[0] == "fails"


def test_a_flaw_has_to_stand_where_it_is_expected() -> None:
    found = flaws_found(CASES / "malformed" / "tram-2073.yaml")
    wanted = ExpectedFlaw(line=17, column=66, message_part="inch")
    assert shows(found, wanted)
    assert not shows(found, wanted.model_copy(update={"column": 67}))
    assert not shows(found, wanted.model_copy(update={"message_part": "degrees"}))
    assert not shows((), wanted)


def test_a_case_that_is_accepted_shows_no_flaw() -> None:
    assert flaws_found(CASES / "proceed" / "lane-2041.yaml") == ()


def test_a_folder_is_searched_to_the_bottom(tmp_path: Path) -> None:
    text = (CASES / "proceed" / "lane-2041.yaml").read_text(encoding="utf-8")
    (tmp_path / "a" / "b").mkdir(parents=True)
    (tmp_path / "a" / "b" / "one.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "none.yaml").write_text(text.split("expect:")[0], encoding="utf-8")
    (tmp_path / "bad.yaml").write_text("case: x\n", encoding="utf-8")
    results = {each.path.name: each for each in run_cases([tmp_path], lambda received: load())}
    assert results["one.yaml"].met
    assert not results["none.yaml"].expects
    assert not results["bad.yaml"].met

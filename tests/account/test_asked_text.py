"""One fact or one rule, asked for by its id."""

import re
from collections.abc import Callable

from recommender.account.asked_text import fact_lines, facts_known, rule_lines, rules_known
from recommender.account.lines import plain
from recommender.account.nearest_text import told
from recommender.account.why_text import why_lines
from recommender.asking.nearest import Change, Lost
from recommender.deciding.answer import Advice

Advised = Callable[[str], Advice]
KILN = "refuse/kiln-2014"


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_fact_is_told_with_its_formula_what_asked_it_and_its_readings(advised: Advised) -> None:
    text = flat(plain(fact_lines(advised(KILN), "bore.ovality", "drive")))
    shown = advised(KILN).sides["drive"].facts["bore.ovality"].value
    assert shown is not None
    assert f"out-of-round (oval) [bore.ovality]: {shown:.1f} um" in text
    assert "Largest minus smallest two-point diameter in the section where they differ most." in text
    assert re.search(r"Asked above 25\.0 um \(form\.ovality_gate\): holds, by \+[\d.]+ um, [\d.]+ spreads "
                     r"\[form\.too-oval\]", text)  # fmt: skip
    assert "depth 2: 46.030, 45.986, 45.940, 45.985" in text
    assert "non-drive" not in text


def test_a_rule_is_told_on_every_subject_with_margin_in_unit_and_spreads(advised: Advised) -> None:
    text = flat(plain(rule_lines(advised(KILN), "form.too-oval", "drive", "press_as_is")))
    options = next(each.options for each in advised(KILN).sides["drive"].remedies if each.id == "press_as_is")
    assert text.count(": holds Found") == text.count("drive side, press as is,") == len(options)
    assert re.search(r"Distance \+[\d.]+ um, [\d.]+ spreads", text)
    assert "Largest out-of-round with which a plain round part is pressed" in text


def test_the_walk_ends_where_it_is_told_to(advised: Advised) -> None:
    lengths = [len(fact_lines(advised(KILN), "fit.mean_interference", "drive", "press_as_is", depth))
               for depth in (0, 1, 2, None)]  # fmt: skip
    assert lengths == sorted(lengths)
    assert lengths[0] < lengths[1] < lengths[2]
    assert "measured:" not in plain(fact_lines(advised(KILN), "bore.ovality", "drive", None, 0))
    whole, short = (len(why_lines(advised(KILN), "drive", depth=depth)) for depth in (None, 0))
    assert short < whole


def test_all_lines_fit_80_columns(advised: Advised, too_long: Callable[[str], list[str]]) -> None:
    advice = advised("proceed/lane-2041")
    lines = [
        *(each for fact in facts_known(advice)[::7] for each in fact_lines(advice, fact)),
        *(each for rule in rules_known(advice)[::9] for each in rule_lines(advice, rule)),
    ]
    assert len(lines) > 300
    assert too_long(plain(lines)) == []


def test_changes_in_words() -> None:
    changes = (
        Change("bore", 12.0), Change("bore", -3.0), Change("rounder", 68.0), Change("taper", -81.0),
        Change("part", -9.0, "polymer_cup_46", 46.021, True), Change("part", 4.0, "aluminium_cup_46", 45.99),
        Change("answer", answers=(("bore.coating", "none"),)),
    )  # fmt: skip
    assert told(Lost("drive", "ream", "Ream", changes, ())) == [
        "bore 12 um larger", "bore 3 um smaller", "bore 68 um less out of round", "81 um less taper over the seat",
        "this part 9 um smaller, 46.021 mm with its bearing fitted",
        "aluminium cup 46 that measures 45.990 mm with its bearing fitted", "to know more: coating in the bore: none",
    ]  # fmt: skip
    (none,) = told(Lost("drive", "ream", "Ream", (), ("Carbon fibre is never cut",)))
    assert none.endswith("was found that clears it (carbon fibre is never cut)")

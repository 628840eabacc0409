"""Every flaw of a rule file, at its exact place."""

from collections.abc import Callable

import pytest

from recommender.ground.flaw import Flaw

FindFlaws = Callable[..., tuple[Flaw, ...]]
Change = Callable[..., str]

# what is replaced, by what, the text the flaw stands at, the check, and words of the message
CASES = [
    ("part.suits_shell, equals", "part.suit_shell, equals", "part.suit_shell", "unknown-fact", "`part.suit_shell`"),
    ("below: gap.least", "below: gap.leest", "gap.leest", "unknown-limit", "`gap.leest`"),
    ("remedies: [press_as_is, ream]", "remedies: [press_as_is, reem]", "reem", "unknown-remedy", "`reem`"),
    ("caution: look-again", "caution: look-agan", "look-agan", "unknown-caution", "`look-agan`"),
    ("defer_to: [specialist]", "defer_to: [specialst]", "specialst", "unknown-deferral", "`specialst`"),
    ("action: read-more", "action: read-mor", "read-mor\n", "unknown-action", "`read-mor`"),
    ("about: {cause: worn}", "about: {cause: worm}", "worm", "unknown-cause", "`worm`"),
    ("one_of: [polymer, aluminium]", "one_of: [polymer, alu]", "alu]", "word", "part.material is never `alu`"),
    ("cracks: [crack]", "cracks: [crak]", "crak]", "unknown-word", "`crak`"),
    ("between: [20 um, 40 um]", "between: [20 um, 40 MPa]", "40 MPa", "unit", "a stress in MPa"),
    ("between: [20 um, 40 um]", "between: [40 um, 20 um]", "[40 um, 20 um]", "between", "above the second"),
    ("between: [20 um, 40 um]", "between: [20 um, 4000 um]", "4000 um", "range", "outside what bore.taper can be"),
    ("between: [20 um, 40 um]", "between: [20, 40 um]", "20, 40 um]", "unit-missing", "`20` has no unit"),
    ("above: 127 MPa", "above: 127", "127}", "unit-missing", "`127` has no unit"),
    ("above: 127 MPa", "above: gap.most", "gap.most}\n    finding: {stance: r", "unit", "gap.most is a length"),
    ("above: 127 MPa", "above: 127 bar", "127 bar", "not-a-number", "unknown unit `bar`"),
    ("above: 127 MPa", "equals: high", "equals: high", "comparison", "`equals` cannot be asked of bearing.ring_stress"),
    ("damage.crack, equals: true", "damage.crack, one_of: [x]", "one_of: [x]", "comparison", "yes or no"),
    ("damage.crack, equals: true", "damage.crack, equals: seen", "seen}\n", "word", "neither true nor false"),
    ("about: side", "about: frame", "bore.ovality, at_most", "scope", "known for each side"),
    ("about: {cause: worn}", "about: frame", "bore.taper, between", "scope", "this rule is about the whole frame"),
    ("fact: bore.ovality", "fact: fit.mean_interference", "fit.mean_interference, at_most", "scope", "about a side"),
    (
        "{fact: bore.ovality, at_most: oval.most}", "{fact: conformity.size, equals: not_proved}", "conformity.size",
        "conformity", "whether a part fits is another question",
    ),
    ("{stance: stops_work}", "{stance: rules_out}", "rules_out}\n    because: A crack", "stance", "about the frame"),
    ("{stance: stops_work}", "{stance: supports}", "supports}\n    because: A crack", "stance", "about the frame"),
    ("{stance: asks_first}", "{stance: rules_out}", "rules_out}\n    because: \"The bore", "stance", "about the side"),
    ("{stance: rules_out}", "{stance: stops_work}", "stops_work}\n    because: \"{fit", "stance", "about remedies"),
    (
        "{stance: supports}\n    because: \"Fitted", "{stance: rules_out}\n    because: \"Fitted",
        "rules_out}\n    because: \"Fitted", "stance", "about a cause",
    ),
    ("    action: read-more\n", "", "asks_first", "action-missing", "does not say what to do"),
    (
        "{stance: asks_first}", "{stance: asks_first, if_undecided: caution}", 'caution}\n    because: "The b',
        "excuse", "only a rule that rules out",
    ),
    (
        "{stance: rules_out}", "{stance: rules_out, if_undecided: caution}", "caution}\n    because: \"{fit", "excuse",
        "the bench can settle every fact",
    ),
    ("under {gap.least}.", "under {gap.most}.", '"{fit.mean_interference}', "placeholder", "`{gap.most}`"),
    ("under {gap.least}.", "under {oval.most}.", '"{fit.mean_interference}', "placeholder", "a limit this rule"),
    ("{fit.mean_interference} is", "{fit.pressure} is", '"{fit.pressure}', "placeholder", "a fact this rule"),
    ("is under {gap.least}.", "is under {gap.least.", '"{fit.mean_interference} is', "placeholder", "has no partner"),
    ("6 um}, expect: fails", "4 um}, expect: fails", "fails}\n      - name: doubt", "example", "`tight` expects fails"),
    ("expect: undecided\n", "expect: holds\n", "holds\n  - id: stress", "example", "`doubtful` expects holds"),
    ("facts: {bearing.ring_stress: 126 MPa}", "facts: {bearing.ring_stress: 126}", "126}", "unit-missing", "no unit"),
    ("facts: {damage.crack: false}", "facts: {damage.crac: false}", "damage.crac:", "unknown-fact", "`damage.crac`"),
    ("{damage.crack: false}", "{damage.delamination: false}", "damage.delamination", "not-asked", "does not ask"),
    ("{damage.crack: false}", "{damage.crack: none}", "none}, expect", "word", "neither true nor false"),
    ("polymer, fit.mean_interference: 6", "wood, fit.mean_interference: 6", "wood", "word", "never `wood`"),
    ("value: 6 um, low: 4 um", "value: 3 um, low: 4 um", "{value: 3 um", "example", "outside its own interval"),
    ("id: press.loose", "id: press.suits", "id: press.suits\n    title: Too loose", "duplicate-id", "a second time"),
    ("id: press.loose", "id: house.loose", "id: house.loose", "reserved-id", "addition of a house"),
]


def place_of(text: str, at: str) -> tuple[int, int]:
    """Line and column, counted from 1, of a text that stands only once."""
    assert text.count(at) == 1, at
    before = text[: text.index(at)]
    return before.count("\n") + 1, len(before) - before.rfind("\n")


@pytest.mark.parametrize(("old", "new", "at", "check", "message"), CASES)
def test_a_flaw_stands_at_its_place(
    flaws_in: FindFlaws, change: Change, book_text: str, old: str, new: str, at: str, check: str, message: str
) -> None:
    text = change(old, new, book_text)
    found = [each for each in flaws_in(text) if each.check == f"rules.{check}"]
    assert [(each.place.line, each.place.column) for each in found] == [place_of(text, at)], flaws_in(text)
    assert message in found[0].message
    assert found[0].advice
    assert found[0].shown


CRACK = "{fact: damage.crack, equals: true}\n"
HOLDS_IF_CRACK = "    holds_if: {fact: damage.crack, equals: true}\n"
# what is replaced, by what, the text the first flaw stands at, and words of its advice
IN_A_FILE = [
    ("value: 5\n", "value: 5 um\n", "5 um\n    source", "Write a number"),
    ("value: 5\n", "value: true\n", "true\n    source: {kind: memory}\n  gap.most", "Write a number"),
    ("    safe_side: higher\n", "", "gap.least:", "safe_side"),
    ("    value: 5\n    source: {kind: memory}\n", "    value: 5\n", "gap.least:", "source"),
    ("shop_may: tighten", "shop_may: tightn", "tightn", "Did you mean `tighten`?"),
    ("unit: um", "unit: inch", "inch", "Known are mm"),
    (', text: "a handbook, page 3"', "", "source: {kind: published", "text"),
    ("limits:\n", "limts:\n", "limts", "Did you mean `limits`?"),
    (CRACK, "{fact: damage.crack}\n", "holds_if: {fact: damage.crack}", "one of"),
    (CRACK, "{fact: damage.crack, equals: true, known: true}\n", "holds_if: {fact: damage.crack, eq", "one of"),
    (CRACK, "{fact: damage.crack, equal: true}\n", "equal: true", "`equals`"),
    (CRACK, "{fact: damage.crack, equals: 3}\n", "3}\n    finding: {stance: stops", "between"),
    (CRACK, "{fact: damage.crack, known: 1}\n", "1}\n    finding: {stance: stops", "true"),
    (CRACK, "seen\n", "seen\n    finding: {stance: stops", "a group"),
    (CRACK, "{every: []}\n", "every: []", "at least 1"),
    (CRACK, "{every: [], some: []}\n", "every: []", "at least 1"),
    ("about: frame", "about: frames", "frames", "frame, side"),
    ("about: frame", "about: {remedies: []}", "remedies: []}", "at least 1"),
    ("stance: stops_work", "stance: stop_work", "stop_work", "Did you mean `stops_work`?"),
    ("      none_of:\n", "      none-of:\n", "none-of", "Did you mean `none_of`?"),
    ("[20 um, 40 um]", "[20 um]", "between: [20 um]", "10 um, 25 um"),
    ("sealed: true", "sealed: false", "false\n    examples", "True"),
    ("id: crack.seen", "id: Crack seen", "Crack seen", "write it like"),
    ("facts: {damage.crack: false}", "facts: {damage.crack: [false]}", "damage.crack: [false]", "unknown fact out"),
    ("signs: [crack, scratch]", "signs: [crack, crack]", "signs: [", "Take one out"),
    ("reversible: false", "reversible: 0", "0, makes", "true"),
]


@pytest.mark.parametrize(("old", "new", "at", "advice"), IN_A_FILE)
def test_a_flaw_of_a_single_file(
    flaws_in: FindFlaws, change: Change, book_text: str, old: str, new: str, at: str, advice: str
) -> None:
    text = change(old, new, book_text)
    first = flaws_in(text)[0]
    assert (first.place.line, first.place.column) == place_of(text, at), first
    assert advice.casefold() in first.advice.casefold()


def test_both_outcomes_need_an_example(flaws_in: FindFlaws, change: Change, book_text: str) -> None:
    text = change("damage.crack: false}, expect: fails", "damage.crack: true}, expect: holds", book_text)
    flaws = flaws_in(text)
    assert [(each.check, str(each.place)) for each in flaws] == [("rules.example-missing", "rules/0.yaml:92:5")]
    assert "expects `fails`" in flaws[0].message


def test_silence_is_never_consent(flaws_in: FindFlaws, change: Change, book_text: str) -> None:
    unsupported = flaws_in(change("remedies: [press_as_is, ream]", "remedies: [press_as_is]", book_text))
    assert [(str(each.place), each.message) for each in unsupported] == [
        ("rules/0.yaml:32:3", "no rule supports ream, so it could never be chosen")
    ]
    both = "Too loose\n    about: {remedies: [press_as_is, ream]}"
    unopposed = flaws_in(change(both, both.replace(", ream", ""), book_text))
    assert [each.message for each in unopposed] == ["no rule could rule out ream, and silence is not consent"]


def test_a_sealed_rule_never_excuses_itself(flaws_in: FindFlaws, book_text: str) -> None:
    flaws = flaws_in(book_text, sealed=("stress.high",))
    assert [(str(each.place), each.message) for each in flaws] == [
        ("rules/0.yaml:78:48", "a sealed rule never says `if_undecided`")
    ]


def test_an_id_that_stands_in_two_files_names_both(flaws_in: FindFlaws, book_text: str) -> None:
    second = "limits:\n" + book_text.split("limits:\n")[1].split("  gap.most:")[0]
    flaws = flaws_in(book_text, second)
    assert [str(each.place) for each in flaws] == ["rules/1.yaml:2:3"]
    assert "rules/0.yaml:2:3" in flaws[0].advice


def test_all_flaws_are_collected(flaws_in: FindFlaws, change: Change, book_text: str) -> None:
    text = change("below: gap.least", "below: gap.leest", book_text)
    text = change("fact: damage.crack", "fact: damage.crak", text)
    text = change("action: read-more", "action: read-mor", text)
    lines = [each.place.line for each in flaws_in(text)]
    assert lines == sorted(lines)
    assert len(lines) >= 3


def test_names_across_sections(flaws_in: FindFlaws, book_text: str) -> None:
    shells = """\
standards:
  wide:
    title: Wide shell
    kind: press_cup
    bore: {nominal: 46 mm, lower: null, upper: null}
    widths: [68 mm]
    parts: [cup]
    confused_with: [narrow]
    source: {kind: memory}
fit_classes:
  any:
    title: Any
    part_kinds: [cup]
    part_materials: [wood]
    bore_materials: [carbon]
    limits: {bar_low: gap.least, aim_low: oval.most, aim_high: gap.mst, bar_high: gap.most}
"""
    found = {(str(each.place), each.check) for each in flaws_in(book_text, shells)}
    assert found == {
        ("rules/1.yaml:7:13", "rules.unknown-part"),
        ("rules/1.yaml:8:21", "rules.unknown-standard"),
        ("rules/1.yaml:14:22", "rules.unknown-material"),
        ("rules/1.yaml:15:22", "rules.unknown-material"),
        ("rules/1.yaml:16:43", "rules.unit"),
        ("rules/1.yaml:16:64", "rules.unknown-limit"),
    }


def test_words_that_name_pieces_of_the_book(flaws_in: FindFlaws, change: Change, book_text: str) -> None:
    text = change("{fact: damage.crack, equals: true}", "{fact: frame.standard, equals: pf30}", book_text)
    flaws = flaws_in(text)
    assert any(each.check == "rules.word" and "frame.standard is never `pf30`" in each.message for each in flaws)


def test_units_formulas_read_are_held(flaws_in: FindFlaws, change: Change, book_text: str) -> None:
    text = change("gap.most:", "turning.tolerance:", change("unit: um", "unit: um", book_text))
    text = text.replace("Greatest interference\n    unit: um", "Greatest interference\n    unit: mm")
    flaws = [each for each in flaws_in(text) if each.check == "rules.unit"]
    assert [(str(each.place), each.message) for each in flaws] == [
        ("rules/0.yaml:11:11", "formulas read turning.tolerance in um")
    ]


def test_only_keys_that_can_be_written_are_advised(flaws_in: FindFlaws, change: Change, book_text: str) -> None:
    text = change("about: {cause: worn}", "about: {cause: worn, side: drive}", book_text)
    unknown = [each for each in flaws_in(text) if each.check == "file.unknown-key"]
    assert [each.advice for each in unknown] == ["Known here: cause, remedies."]

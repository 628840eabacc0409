"""A small invented book, and how to break it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.ground.flaw import Flaw, Flawed
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.assemble import assemble
from recommender.rulebook.book import Rulebook

BOOK = """\
limits:
  gap.least:
    meaning: Least interference
    unit: um
    safe_side: higher
    shop_may: tighten
    value: 5
    source: {kind: memory}
  gap.most:
    meaning: Greatest interference
    unit: um
    safe_side: lower
    shop_may: move
    value: 80
    source: {kind: common_practice}
  oval.most:
    meaning: Greatest out-of-round
    unit: mm
    safe_side: lower
    shop_may: nothing
    value: 0.025
    source: {kind: published, text: "a handbook, page 3"}
  turns.most:
    meaning: Most fittings
    unit: "1"
    safe_side: lower
    shop_may: move
    value: 3
    source: {kind: memory}
remedies:
  press_as_is: {title: Press, reversible: true, makes: fits_part, consent: false}
  ream: {title: Ream, reversible: false, makes: cut, consent: true}
causes:
  worn: {title: Worn}
words:
  signs: [crack, scratch]
  places: [bore]
  looks: [eye]
lists:
  cracks: [crack]
wording:
  cautions: {look-again: Look again after a week.}
  deferrals: {specialist: Ask a specialist.}
  actions: {read-more: Take more readings.}
rules:
  - id: press.suits
    title: Part suits
    about: {remedies: [press_as_is, ream]}
    holds_if: {fact: part.suits_shell, equals: true}
    finding: {stance: supports}
    because: The part belongs here.
    source: {kind: common_practice}
    examples:
      - {name: suits, facts: {part.suits_shell: true}, expect: holds}
      - {name: another, facts: {part.suits_shell: false}, expect: fails}
  - id: press.loose
    title: Too loose
    about: {remedies: [press_as_is, ream]}
    holds_if:
      every:
        - {fact: part.material, one_of: [polymer, aluminium]}
        - {fact: fit.mean_interference, below: gap.least}
    finding: {stance: rules_out}
    because: "{fit.mean_interference} is under {gap.least}."
    caution: look-again
    defer_to: [specialist]
    source: {kind: common_practice}
    examples:
      - {name: loose, facts: {part.material: polymer, fit.mean_interference: 4 um}, expect: holds}
      - {name: tight, facts: {part.material: polymer, fit.mean_interference: 6 um}, expect: fails}
      - name: doubtful
        facts: {part.material: polymer, fit.mean_interference: {value: 6 um, low: 4 um, high: 8 um}}
        expect: undecided
  - id: stress.high
    title: Ring stress
    about: {remedies: [press_as_is]}
    holds_if: {fact: bearing.ring_stress, above: 127 MPa}
    finding: {stance: rules_out, if_undecided: caution}
    because: "The ring bears {bearing.ring_stress}."
    source: {kind: memory}
    examples:
      - {name: high, facts: {bearing.ring_stress: 128 MPa}, expect: holds}
      - {name: low, facts: {bearing.ring_stress: 126 MPa}, expect: fails}
  - id: crack.seen
    title: Crack
    about: frame
    holds_if: {fact: damage.crack, equals: true}
    finding: {stance: stops_work}
    because: A crack was seen.
    source: {kind: common_practice}
    sealed: true
    examples:
      - {name: seen, facts: {damage.crack: true}, expect: holds}
      - {name: none, facts: {damage.crack: false}, expect: fails}
  - id: oval.high
    title: Oval
    about: side
    holds_if:
      none_of:
        - {fact: bore.ovality, at_most: oval.most}
    finding: {stance: asks_first}
    because: "The bore is {bore.ovality} out of round; {oval.most} is borne."
    action: read-more
    source: {kind: memory}
    examples:
      - {name: oval, facts: {bore.ovality: 26 um}, expect: holds}
      - {name: round, facts: {bore.ovality: 0.024 mm}, expect: fails}
      - {name: not read, facts: {}, expect: undecided}
  - id: worn.refits
    title: Many fittings
    about: {cause: worn}
    holds_if:
      some:
        - {fact: history.refits, at_least: turns.most}
        - {fact: bore.taper, between: [20 um, 40 um]}
    finding: {stance: supports}
    because: "Fitted {history.refits} times."
    source: {kind: memory}
    examples:
      - {name: many, facts: {history.refits: 3}, expect: holds}
      - {name: few, facts: {history.refits: 2, bore.taper: 19 um}, expect: fails}
"""


def changed(old: str, new: str, text: str = BOOK) -> str:
    """Return the book with the first `old` replaced, which must be there."""
    assert old in text, old
    return text.replace(old, new, 1)


@pytest.fixture
def book_text() -> str:
    return BOOK


@pytest.fixture
def change() -> Callable[..., str]:
    return changed


@pytest.fixture
def build() -> Callable[..., Rulebook]:
    def make(*texts: str, sealed: tuple[str, ...] = ()) -> Rulebook:
        return assemble([read_text(text, f"rules/{number}.yaml") for number, text in enumerate(texts)], sealed)

    return make


@pytest.fixture
def flaws_in(build: Callable[..., Rulebook]) -> Callable[..., tuple[Flaw, ...]]:
    def find(*texts: str, sealed: tuple[str, ...] = ()) -> tuple[Flaw, ...]:
        with pytest.raises(Flawed) as caught:
            build(*texts, sealed=sealed)
        return caught.value.flaws

    return find


@pytest.fixture
def rules_folder(tmp_path: Path) -> Callable[..., Path]:
    def write(name: str = "rules", **files: str) -> Path:
        folder = tmp_path / name
        folder.mkdir(exist_ok=True)
        for file, text in files.items():
            (folder / f"{file}.yaml").write_text(text, encoding="utf-8")
        return folder

    return write

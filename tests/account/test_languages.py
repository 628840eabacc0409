"""The owner's page in every language says the same things, and leaves nothing in English."""

import re
from collections.abc import Callable
from typing import get_args

import pytest
from markupsafe import Markup
from matplotlib.figure import Figure

from recommender.account.page import page
from recommender.account.page_language import PLACE, Sentences, languages
from recommender.account.page_matter import Matter
from recommender.account.page_owner import FIRST, RIDING
from recommender.account.page_told import Told
from recommender.deciding.crack_lock import REASON
from recommender.facts.fact import SettledBy
from recommender.rulebook.book import Rulebook

CASES = (
    "proceed/orchard-2052", "proceed/mill-2027", "proceed/lane-2041", "refuse/kiln-2014", "refuse/gate-2021",
    "refuse/salt-2024", "measure_again/tower-2042", "measure_again/barn-2050", "measure_again/pier-2016",
)  # fmt: skip
ENGLISH = re.compile(r"\b(the|is|are|of|and|not|has|been|side|bore|frame|unknown)\b")


def translated(book: Rulebook) -> list[str]:
    return [each for each in languages(book) if each != "en"]


def test_german_is_shipped(book: Rulebook) -> None:
    assert languages(book) == ("en", "de")


def test_both_languages_have_the_same_ids_and_places(book: Rulebook) -> None:
    for language in translated(book):
        for kind in ("owner", "notices", "deferrals"):
            own, other = book.wording[kind], book.wording[f"{language}/{kind}"]
            wanted = set(RIDING) if kind == "notices" else set(own)
            assert set(other) == wanted
            places = {name: sorted(PLACE.findall(own[name])) for name in wanted}
            assert {name: sorted(PLACE.findall(other[name])) for name in wanted} == places
            assert not [name for name in wanted if other[name] == own[name]]


def test_every_word_a_case_may_use_has_its_sentence(book: Rulebook) -> None:
    wanted = {
        *(f"sign.{each}" for each in book.words["signs"]), *(f"place.{each}" for each in book.words["places"]),
        *(f"ask.{each}" for each in get_args(SettledBy)), *(f"work.{each.id}" for each in book.remedies),
        *(f"first.{each}" for each in FIRST),
    }  # fmt: skip
    assert wanted <= set(book.wording["owner"])


@pytest.fixture
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Figure, "savefig", lambda self, out, **more: out.write("<svg></svg>"))


@pytest.mark.parametrize("name", CASES)
def test_the_owner_reads_german_only(name: str, matter: Callable[[str], Matter], undrawn: None) -> None:
    made = page(matter(name), "de")
    found = re.search(r'<section id="owner".*?</section>', made, re.DOTALL)
    assert found
    told = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", found[0]))
    assert 'lang="de"' in found[0]
    assert "Was gemacht wird" in told
    assert ENGLISH.findall(told) == []
    assert re.search(r"[Ff]ahren", re.sub(r"<[^>]+>", " ", made))


def test_a_refusal_for_damage_is_told_first_in_german(matter: Callable[[str], Matter], undrawn: None) -> None:
    made = page(matter("refuse/gate-2021"), "de")
    body = re.sub(r"<[^>]+>", " ", made.split("<body>")[1]).split()
    assert " ".join(body[:4]) == "Nicht mehr fahren: gate-2021"
    assert "Es wurde ein Riss gesehen." in " ".join(body[:20])


def test_the_crack_is_told_in_the_words_that_stand_in_code(book: Rulebook) -> None:
    assert book.wording["owner"]["notice.crack"] == REASON


def test_what_fills_a_place_stays_text(book: Rulebook) -> None:
    say = Sentences(book, "de")
    assert say("ride.noted", date=Told("<b>", "case:received")) == Markup(
        'Festgestellt am <span data-trace="case:received">&lt;b&gt;</span>. '
    ) + say.plain("ride.noted").split("{date}. ")[1]
    assert "&lt;i&gt;" in say("ride.where", places="<i>")


def test_a_language_the_book_does_not_hold(book: Rulebook) -> None:
    with pytest.raises(KeyError):
        Sentences(book, "xx")

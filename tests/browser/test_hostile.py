"""A case that tries to be more than text: scripts, marks that turn writing round, ten thousand characters."""

from pathlib import Path
from typing import Any

import pytest

from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.ground.flaw import Flawed
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook

ATTACK = (
    "</td></table></script><script>window.broken = 1</script>\\\"><img src=x onerror=window.broken=2>"
    "<style>*{display:none}</style><a href=javascript:window.broken=3>x</a><svg onload=window.broken=4>"
    " \u202eesrever\u2066 \u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \U0001f6b2\U0001f469\u200d\U0001f527 "
)
LONG = "W" * 10_000


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory, book: Rulebook) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    text = (shipped_cases() / "proceed/mill-2027.yaml").read_text("utf-8")
    for before, after in (
        ("engineer: bench 1", f'engineer: "{ATTACK}", owner: "{LONG}", notes: "{ATTACK}{LONG}",'
                              f' photos: {{p1: {{file: "{ATTACK}.jpg", caption: "{ATTACK}{LONG}"}}}}'),
        ('title: "Carbon', f'title: "{ATTACK}Carbon'),
        ("    seat_depth: 16 mm\n", f'    seat_depth: 16 mm\n    note: "{ATTACK}{LONG}"\n'),
        ("  signs: []", f'  signs: [{{sign: lacquer_scratch, where: shell_outside, note: "{ATTACK}{LONG}"}}]'),
    ):  # fmt: skip
        assert before in text
        text = text.replace(before, after)
    case, out = folder / "case.yaml", folder / "page.html"
    case.write_text(text, "utf-8")
    loaded = load_case(case)
    out.write_text(page(Matter(advise(loaded, book), loaded, book, folder)), "utf-8")
    return out


@pytest.mark.parametrize("width", [360, 1200])
def test_it_stays_text_and_stays_in_its_column(browser: Any, hostile: Path, width: int) -> None:
    events = browser.open(hostile, width)
    assert browser.run("window.broken === undefined")
    injected = "script, body style, body svg, body a[href^=javascript]"
    assert browser.run(f"document.querySelectorAll('{injected}').length") == 0
    assert browser.run("document.body.innerText.includes('<script>window.broken = 1</script>')")
    assert browser.run("document.documentElement.scrollWidth") <= width
    assert [each for each in events if each.get("method") in ("Log.entryAdded", "Runtime.exceptionThrown")] == []
    sent = [each["params"]["request"]["url"] for each in events if each.get("method") == "Network.requestWillBeSent"]
    assert [each for each in sent if not each.startswith("data:")] == [hostile.resolve().as_uri()]


def test_no_mark_turns_the_rest_of_the_page_round(browser: Any, hostile: Path) -> None:
    browser.open(hostile)
    assert browser.run("!/[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f]/.test(document.documentElement.outerHTML)")
    steering = "[\\u202a-\\u202e\\u2066-\\u2069\\u200e\\u200f]"
    assert browser.run(f"!new RegExp('{steering}').test(document.documentElement.outerHTML)")
    assert browser.run("getComputedStyle(document.body).direction") == "ltr"
    assert browser.run("document.body.innerText.includes('\\u05e9\\u05dc\\u05d5\\u05dd')")
    assert browser.run("document.body.innerText.includes('W'.repeat(10000))")


@pytest.mark.parametrize("written", ["\\a", "\\x1b[2J", "\\x7f", "\\0"])
def test_control_characters_never_reach_a_page(tmp_path: Path, written: str) -> None:
    text = (shipped_cases() / "proceed/mill-2027.yaml").read_text("utf-8")
    (tmp_path / "case.yaml").write_text(text.replace('title: "', f'title: "{written}'), "utf-8")
    with pytest.raises(Flawed, match="a character nobody can see"):
        load_case(tmp_path / "case.yaml")

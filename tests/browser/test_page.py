"""The page in a browser: quiet, complete, readable on a phone, printed whole, open to every reader."""

import base64
import html
import json
import re
import shutil
import subprocess
from collections import Counter
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

CASES = (
    "proceed/mill-2027", "proceed/orchard-2052", "proceed/lane-2041", "refuse/kiln-2014", "refuse/gate-2021",
    "measure_again/tower-2042",
)  # fmt: skip
LOUD = ("Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown")
PHONE = 360
A4 = (595, 842)
LONGEST_UNBROKEN = 12


def requests(events: list[dict[str, Any]]) -> list[str]:
    sent = [each for each in events if each.get("method") == "Network.requestWillBeSent"]
    return [str(each["params"]["request"]["url"]) for each in sent]


@pytest.mark.parametrize("case", CASES)
def test_it_says_nothing_to_the_console_and_asks_nobody_for_anything(browser: Any, pages: Any, case: str) -> None:
    events = browser.open(pages[case])
    assert [each for each in events if each.get("method") in LOUD] == []
    asked = [each for each in requests(events) if not each.startswith("data:")]
    assert asked == [pages[case].resolve().as_uri()]


@pytest.mark.parametrize("case", CASES)
def test_every_picture_is_there_and_described(browser: Any, pages: Any, case: str) -> None:
    browser.open(pages[case])
    shown = browser.run("[...document.images].map(i => [i.complete && i.naturalWidth > 0, i.alt.length > 20])")
    assert shown
    assert all(complete and described for complete, described in shown)


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("width", [PHONE, 768, 1200])
def test_nothing_runs_out_of_the_page_sideways(browser: Any, pages: Any, case: str, width: int) -> None:
    browser.open(pages[case], width)
    assert browser.run("document.documentElement.scrollWidth") <= width
    outside = browser.run(
        "[...document.querySelectorAll('body *')].filter(e => !e.closest('.wide') &&"
        f" e.getBoundingClientRect().right > {width} + 1).map(e => e.outerHTML.slice(0, 90))"
    )
    assert outside == []


def test_what_is_wider_than_a_phone_can_be_moved_by_keyboard(browser: Any, pages: Any) -> None:
    browser.open(pages["proceed/mill-2027"], PHONE)
    wide = browser.run(
        "[...document.querySelectorAll('.wide')].map(e => [e.scrollWidth > e.clientWidth, e.tabIndex,"
        " getComputedStyle(e).overflowX])"
    )
    assert any(scrolls for scrolls, _, _ in wide)
    assert all((index, overflow) == (0, "auto") for _, index, overflow in wide)


@pytest.fixture(scope="module")
def printed(browser: Any, pages: Any, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder, made = tmp_path_factory.mktemp("print"), {}
    for case in CASES:
        browser.open(pages[case])
        sheet = browser.ask("Page.printToPDF", preferCSSPageSize=True, printBackground=True)
        made[case] = folder / f"{Path(case).name}.pdf"
        made[case].write_bytes(base64.b64decode(sheet["data"]))
    return made


@pytest.mark.parametrize("case", CASES)
def test_it_prints_on_a4_with_nothing_cut(browser: Any, pages: Any, printed: Any, case: str) -> None:
    """Every word of every table stands on the print, inside its page, and no row is cut by the end of a page."""
    boxes = _words(printed[case])
    assert all(abs(width - A4[0]) < 1 and abs(height - A4[1]) < 1 for width, height, _ in boxes)
    assert all(box[0] >= 0 and box[2] <= width and box[3] <= height for width, height, words in boxes
               for _, box in words)  # fmt: skip
    browser.open(pages[case])
    cells = browser.run("[...document.querySelectorAll('td, th, dd')].map(e => e.innerText)")
    wanted = Counter(_pieces(" ".join(cells)))
    on_paper = Counter(_pieces(" ".join(word for _, _, words in boxes for word, _ in words)))
    assert len(wanted) > 100
    assert {each: count for each, count in (wanted - on_paper).items() if len(each) <= LONGEST_UNBROKEN} == {}


@pytest.mark.parametrize("case", CASES)
def test_short_tables_and_pictures_stay_on_one_page(browser: Any, pages: Any, printed: Any, case: str) -> None:
    """What a reader holds side by side is not divided: the last row of a short table is on the page of its first."""
    browser.open(pages[case])
    tables = browser.run(
        "[...document.querySelectorAll('table.pairs, table.readings, table.signs')].filter(t => t.rows.length > 2)"
        ".map(t => [t.rows[0].cells[0].innerText, t.rows[t.rows.length - 1].cells[0].innerText])"
    )
    sheets = [_bare("".join(word for word, _ in words)) for _, _, words in _words(printed[case])]
    for first, last in tables:
        assert any(_bare(first) in sheet and _bare(last) in sheet for sheet in sheets), (first, last)


def _words(pdf: Path) -> list[tuple[float, float, list[tuple[str, tuple[float, ...]]]]]:
    """Return each page of a print: its size in points, and every word with the box it stands in."""
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext is not installed; .ci/run installs it")
    told = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, check=True, text=True).stdout
    pages = re.findall(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', told, re.DOTALL)
    word = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>')
    return [
        (float(width), float(height), [(text, tuple(map(float, box))) for *box, text in word.findall(body)])
        for width, height, body in pages
    ]


def _pieces(text: str) -> list[str]:
    """Return the words and numbers of a text; hyphens and underscores part them, for lines may end there."""
    return re.findall(r"[^\W_]+(?:\.\d+)?", html.unescape(text))


def _bare(text: str) -> str:
    return re.sub(r"[^\w.]", "", re.sub(r"&\w+;", "", text))


def test_the_stop_riding_notice_is_the_first_thing_read(browser: Any, pages: Any) -> None:
    browser.open(pages["refuse/gate-2021"], PHONE)
    first, top, size = browser.run(
        "(e => [document.body.innerText.trim().split('\\n')[0], e.getBoundingClientRect().top,"
        " parseFloat(getComputedStyle(e).fontSize)])(document.querySelector('.stop'))"
    )
    assert first.lower() == "stop riding: gate-2021"
    assert top < 60
    assert size >= 28


def test_the_owners_answer_takes_half_a_page(browser: Any, pages: Any) -> None:
    inside = (688, 1009)  # A4 within its margins, in CSS pixels
    browser.ask("Emulation.setEmulatedMedia", media="print")
    for case in CASES:
        browser.open(pages[case], *inside)
        height = browser.run("document.querySelector('#owner').getBoundingClientRect().height")
        notice = browser.run("document.querySelector('.riding').getBoundingClientRect().height")
        assert height + notice * (case == "refuse/gate-2021") < inside[1] * 0.6, case
    browser.ask("Emulation.setEmulatedMedia", media="")


CONTRAST = """
(() => {
  const lum = c => c.map(v => v / 255).map(v => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
    .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
  const rgb = s => s.match(/[\\d.]+/g).map(Number);
  const ground = e => { for (; e; e = e.parentElement) { const c = rgb(getComputedStyle(e).backgroundColor);
    if (c.length < 4 || c[3] > 0) return c.slice(0, 3); } return [255, 255, 255]; };
  const poor = [];
  for (const e of document.querySelectorAll('body *')) {
    if (![...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) continue;
    const [a, b] = [lum(rgb(getComputedStyle(e).color).slice(0, 3)), lum(ground(e))].sort((x, y) => y - x);
    if ((a + 0.05) / (b + 0.05) < 4.5) poor.push(e.outerHTML.slice(0, 80));
  }
  return poor;
})()
"""


@pytest.mark.parametrize("case", CASES)
def test_own_checks_of_access(browser: Any, pages: Any, case: str) -> None:
    browser.open(pages[case])
    assert browser.run("document.documentElement.lang") == "en-GB"
    assert browser.run("document.title").startswith(Path(case).name)
    levels = browser.run("[...document.querySelectorAll('h1, h2, h3, h4, h5')].map(e => +e.tagName[1])")
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    ids = browser.run("[...document.querySelectorAll('[id]')].map(e => e.id)")
    assert len(ids) == len(set(ids))
    assert browser.run("[...document.querySelectorAll('th')].filter(e => !e.scope).length") == 0
    assert browser.run("document.querySelectorAll('script, iframe, object, link, form').length") == 0
    assert browser.run(CONTRAST) == []


@pytest.mark.parametrize("case", CASES)
def test_axe_finds_nothing(browser: Any, pages: Any, axe: str, case: str) -> None:
    for width in (PHONE, 1200):
        browser.open(pages[case], width)
        browser.run(axe + "; 0")
        found = browser.run("axe.run(document, {resultTypes: ['violations']}).then(r => JSON.stringify(r.violations))")
        told = [(each["id"], [node["html"][:120] for node in each["nodes"]][:3]) for each in json.loads(found)]
        assert told == []


def test_the_reading_order_on_paper_is_that_of_the_page(browser: Any, pages: Any) -> None:
    browser.open(pages["proceed/mill-2027"])
    tabs = browser.run("[...document.querySelectorAll('.tab')].map(e => e.innerText)")
    assert tabs == [
        "For the owner", "For the shop", "For the warranty desk", "The reasoning", "Cautions, versions, signatures",
    ]  # fmt: skip

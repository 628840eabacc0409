"""The page as text: what each reader finds, hostile text, photographs, the same bytes each time."""

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.account.page_photos import photos
from recommender.account.page_pictures import bore_figures
from recommender.account.page_told import Told, seen
from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook

Paged = Callable[[str], str]
HOSTILE = (
    '<script>alert(1)</script> "><img src=x onerror=alert(2)> {{ 7 * 7 }} {% raw %} &amp; '
    "\u202egnp\u202c \U0001f6b2 "
)


def matter_of(path: Path, book: Rulebook) -> Matter:
    loaded = load_case(path)
    return Matter(advise(loaded, book), loaded, book, path.parent)


def words_of(made: str) -> str:
    body = re.sub(r"<style>.*?</style>", "", made, flags=re.DOTALL)
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", body))


def section(made: str, name: str) -> str:
    found = re.search(rf'<section id="{name}".*?</section>', made, re.DOTALL)
    assert found
    return words_of(found[0])


def edited(tmp_path: Path, name: str, *changes: tuple[str, str]) -> Path:
    text = (shipped_cases() / f"{name}.yaml").read_text("utf-8")
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    path = tmp_path / "case.yaml"
    path.write_text(text, "utf-8")
    return path


def test_a_crack_is_told_before_anything_else(paged: Paged) -> None:
    made = paged("refuse/gate-2021")
    assert words_of(made.split("<body>")[1]).strip().lower().startswith("stop riding: gate-2021")
    assert "Interference against the allowed window" not in made


def test_no_part_is_named_to_the_shop_where_the_frame_is_refused_for_damage(paged: Paged) -> None:
    told = section(paged("refuse/gate-2021"), "shop")
    assert "Not released: nothing is pressed into this frame" in told
    assert "cup" not in told


def test_the_sheet_of_a_reamed_shell_is_headed_not_released(paged: Paged) -> None:
    told = section(paged("proceed/orchard-2052"), "shop")
    assert told.index("Not released") < told.index("Ream bore to")
    assert "written agreement" in told


def test_a_held_side_is_marked_not_to_be_pressed(paged: Paged) -> None:
    told = section(paged("refuse/kiln-2014"), "shop")
    assert "Held: not to be pressed" in told


def test_the_owner_is_never_told_that_it_is_safe_or_who_is_to_blame(paged: Paged) -> None:
    for name in ("proceed/mill-2027", "proceed/orchard-2052", "refuse/kiln-2014", "refuse/gate-2021"):
        told = section(paged(name), "owner").lower()
        assert not re.search(r"\b(safe|safely|fault|defective|guarantee|certif)", told)
        assert "do not ride" in words_of(paged(name)).lower()


def test_assumed_spreads_are_marked_and_listed(paged: Paged) -> None:
    made = paged("proceed/mill-2027")
    assert made.count('<abbr class="assumed"') > 5
    assert "Spreads that were assumed" in section(made, "warranty")


def test_an_assumed_form_is_marked_in_the_picture(tmp_path: Path, book: Rulebook) -> None:
    two_point = (
        "      - {instrument: two, unit: mm, turns: [0, 60, 120], "
        "at: {2: [46.063, 46.064, 46.058], 14: [45.985, 45.988, 45.980]}}\n"
    )
    path = edited(tmp_path, "proceed/mill-2027", (two_point, ""))
    figures = bore_figures(matter_of(path, book))
    marked = [any("Assumed, not measured" in remark for remark in each.remarks) for each in figures]
    assert marked == [True, True, False, False]
    assert "form%20assumed" in figures[0].picture.source or "form assumed" in figures[0].picture.source


def test_hostile_text_stays_text(tmp_path: Path, book: Rulebook) -> None:
    hostile = HOSTILE.replace('"', '\\"') + "A" * 10_000
    path = edited(
        tmp_path, "proceed/mill-2027", ("engineer: bench 1", f'engineer: "{hostile}", notes: "{hostile}"'),
        ('title: "Carbon', 'title: "<b>Carbon'),
    )  # fmt: skip
    made = page(matter_of(path, book))
    assert "<script" not in made
    assert "<img src=x" not in made
    assert "<b>Carbon" not in made
    assert "{{ 7 * 7 }}" in made
    assert "\u202e" not in made
    assert "\U0001f6b2" in made
    assert "A" * 10_000 in made


def test_characters_that_steer_a_page_are_shown_not_obeyed() -> None:
    assert seen("a\u202eb\u2066c\x07d\x1be\u200ff") == "a\ufffdb\ufffdc\ufffdd\ufffde\ufffdf"
    assert seen("two\nlines and \U0001f469\u200d\U0001f527") == "two\nlines and \U0001f469\u200d\U0001f527"
    assert Told("<b>&", 'x" onload="y').__html__() == '<span data-trace="x&#34; onload=&#34;y">&lt;b&gt;&amp;</span>'


@pytest.fixture
def album(tmp_path: Path) -> Path:
    folder = tmp_path / "case"
    folder.mkdir()
    Image.new("RGB", (3000, 1500), "grey").save(folder / "wide.png")
    Image.new("RGB", (10, 10), "grey").save(tmp_path / "outside.png")
    (folder / "text.jpg").write_text("no picture")
    (folder / "link.png").symlink_to(tmp_path / "outside.png")
    return folder


def test_photographs_are_scaled_in_or_listed_as_missing(album: Path, book: Rulebook) -> None:
    names = {"a": "wide.png", "b": "../outside.png", "c": "link.png", "d": "text.jpg", "e": "none.jpg", "f": "."}
    listed = ", ".join(f'{key}: {{file: "{name}", caption: "shot {key}"}}' for key, name in names.items())
    path = edited(album, "proceed/mill-2027", ("engineer: bench 1", f"engineer: bench 1, photos: {{{listed}}}"))
    matter = matter_of(path, book)
    found = {each.id: each for each in photos(matter)}
    assert found["a"].source.startswith("data:image/jpeg;base64,")
    assert (found["a"].width, found["a"].height) == (1100, 550)
    assert {key for key, each in found.items() if each.missing} == {"b", "c", "d", "e", "f"}
    assert not any(each.source for key, each in found.items() if key != "a")
    made = page(matter)
    assert all(each.caption in made for each in found.values())


def test_the_page_asks_for_nothing_outside_itself(paged: Paged) -> None:
    made = paged("proceed/mill-2027")
    assert set(re.findall(r'(?:src|href)="([^"]{5})', made)) <= {"data:", "#owne", "#shop", "#warr", "#reas", "#clos"}
    assert "http" not in re.sub(r'src="[^"]*"', "", made).replace("http-equiv", "")


def test_the_same_case_gives_the_same_bytes_in_another_process(paged: Paged, tmp_path: Path) -> None:
    case, out = shipped_cases() / "proceed/mill-2027.yaml", tmp_path / "page.html"
    command = [sys.executable, "-m", "recommender", "report", str(case), "--to", str(out), "--quick"]
    root = str(Path(__file__).parents[2])
    env = dict(os.environ, PYTHONHASHSEED="2", TZ="Asia/Tokyo", PYTHONPATH=root)
    subprocess.run(command, capture_output=True, check=True, env=env, cwd=tmp_path)
    assert out.read_text("utf-8") == paged("proceed/mill-2027")


def test_the_owner_of_a_held_side_reads_whole_sentences(paged: Paged) -> None:
    told = section(paged("refuse/kiln-2014"), "owner")
    assert "What could then be done: A part as it is sold is pressed in." in told
    assert not re.search(r"[.:;,][A-Z]", told)

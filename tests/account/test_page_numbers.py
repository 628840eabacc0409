"""Every number on the page can be followed to where it comes from, and is the same there."""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import asdict
from html.parser import HTMLParser
from typing import Any

import pytest
from matplotlib.figure import Figure

from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.asking.nearest import Change, lost_remedies
from recommender.deciding.answer import as_data, to_json
from recommender.facts.catalogue import CATALOGUE
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook

CASES = sorted(shipped_cases().glob("[mpr]*/*.yaml"))
JUDGED = [f"{each.parent.name}/{each.stem}" for each in CASES if each.parent.name != "malformed"]
NUMBER = re.compile(r"\d+(?:\.\d+)?")
CONSTANTS = {"method:coverage": "95", "method:reference": "20 C, ISO 1"}
LENGTH = re.compile(r"([\d.]+) mm")
VOID = {"meta", "img", "link", "br", "wbr"}


class Texts(HTMLParser):
    """Collects every text of the page with the `data-trace` it stands under."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self._open: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            own = dict(attrs).get("data-trace")
            self._open.append((tag, own or (self._open[-1][1] if self._open else "")))

    def handle_endtag(self, tag: str) -> None:
        assert self._open, f"</{tag}> closes nothing"
        assert self._open[-1][0] == tag, f"</{tag}> closes <{self._open[-1][0]}>"
        self._open.pop()

    def handle_data(self, data: str) -> None:
        if self._open and not {tag for tag, _ in self._open} & {"style", "title", "code"}:
            self.found.append((self._open[-1][1], data))


class Sources:
    """What stands at each place a number may come from."""

    def __init__(self, matter: Matter) -> None:
        self._matter = matter
        self._data = as_data(matter.advice)
        self._trace = self._data["trace"]
        self._by_node: dict[str, list[Any]] = {}
        self._known: dict[str, list[float]] = {}
        for each in _dicts({key: value for key, value in self._data.items() if key != "trace"}):
            if "node" in each:
                self._by_node.setdefault(each["node"], []).append({k: v for k, v in each.items() if _own(v)})

    def numbers(self, trace: str) -> list[float]:
        """Return every number that stands at a place, found once."""
        if trace not in self._known:
            self._known[trace] = list(numbers_of(self.at(trace)))
        return self._known[trace]

    def at(self, trace: str) -> Any:
        kind, _, rest = trace.partition(":")
        if trace in CONSTANTS:
            return CONSTANTS[trace]
        if kind == "words":
            return self._words(*rest.split("/", 1))
        if kind == "fact":
            return [CATALOGUE[rest].name, CATALOGUE[rest].made_by, CATALOGUE[rest].source]
        if kind == "book":
            return asdict(self._matter.book.standards[rest])
        if kind == "nearest":
            return [each._asdict() for each in self._changes(*rest.split("/", 1))]
        if kind == "advice":
            return self._data[rest]
        if kind == "case":
            return [_at(self._matter.loaded.document.data, rest), self._trace.get(trace), *self._in_um(rest)]
        found = [self._trace.get(trace), *self._name_of_fact(trace), *self._by_node.get(trace, []), *self._facts(trace)]
        assert any(found), f"neither a step of the trace nor a fact of a side: {trace}"
        return found

    def _name_of_fact(self, trace: str) -> Iterator[str]:
        """Yield the name of the fact a check asks: that of a diameter holds the temperature it is valid at."""
        asked = (self._trace.get(trace) or {}).get("fact")
        if asked in CATALOGUE:
            yield CATALOGUE[asked].name

    def _in_um(self, path: str) -> Iterator[float]:
        """Yield a length of the case in um, as the page prints the small ones."""
        written = _at(self._matter.loaded.document.data, path)
        if isinstance(written, str) and (found := LENGTH.fullmatch(written)):
            yield float(found[1]) * 1000

    def _changes(self, side: str, remedy: str) -> Iterator[Change]:
        for lost in self._matter.lost:
            if (lost.side, lost.remedy) == (side, remedy):
                yield from lost.changes

    def _words(self, kind: str, name: str) -> Any:
        if kind == "questions":
            return [each for each in self._data["questions"] if each["do"] == name]
        found = [each["text"] for each in self._data[kind] if each["id"] == name]
        assert found, f"no such sentence: {kind}/{name}"
        return found

    def _facts(self, trace: str) -> Iterator[Any]:
        scope, _, fact = trace.rpartition("/")
        if scope in ("drive", "non_drive"):
            yield self._data["sides"][scope]["facts"].get(fact)
        yield from (each["facts"].get(fact) for each in self._by_node.get(f"contest/{scope}", []) if "facts" in each)


def _dicts(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, dict):
        yield value
    for each in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from _dicts(each)


def _own(value: Any) -> bool:
    """Return whether a value belongs to its holder and is not itself a list of things with steps of their own."""
    return not (isinstance(value, list) and value and isinstance(value[0], dict) and "node" in value[0])


def _at(data: Any, path: str) -> Any:
    """Return what stands in the case at a path; steps with dots in them, such as file names, are tried whole."""
    if not path:
        return data
    if isinstance(data, list):
        step, _, rest = path.partition(".")
        return _at(data[int(step)], rest)
    for key in sorted(data if isinstance(data, dict) else (), key=len, reverse=True):
        if path == key or path.startswith(f"{key}."):
            return _at(data[key], path.removeprefix(key).removeprefix("."))
    return None


def numbers_of(source: Any) -> Iterator[float]:
    """Yield every number in a source, also in its words; of a band its middle and half width too."""
    if isinstance(source, bool) or source is None:
        return
    if isinstance(source, int | float):
        yield abs(float(source))
    elif isinstance(source, str):
        yield from map(float, NUMBER.findall(source))
    elif isinstance(source, dict):
        for key, each in source.items():
            yield from numbers_of(str(key))
            yield from numbers_of(each)
    elif isinstance(source, list | tuple):
        if len(source) == 2 and all(isinstance(each, float) for each in source):
            yield from ((source[0] + source[1]) / 2, (source[1] - source[0]) / 2)
        for each in source:
            yield from numbers_of(each)


def is_among(token: str, known: list[float]) -> bool:
    """Return whether a printed number is one of the known ones, to the decimals printed."""
    decimals = len(token.partition(".")[2])
    return any(abs(float(token) - each) <= 0.5 * 10**-decimals + 1e-9 for each in known)


@pytest.mark.parametrize("name", JUDGED)
def test_every_number_is_followed_to_its_source_and_stands_there(
    name: str, matter: Callable[[str], Matter], undrawn: None
) -> None:
    assert strays(page(matter(name)), Sources(matter(name))) == []


@pytest.fixture
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave every picture empty: what is drawn is checked elsewhere, the numbers beside it stand in the page."""
    monkeypatch.setattr(Figure, "savefig", lambda self, out, **more: out.write("<svg></svg>"))


def strays(made: str, sources: Sources) -> list[tuple[str, str, str]]:
    """Return every number of a page that does not stand where its trace leads, with that place and its text."""
    texts, found = Texts(), []
    texts.feed(made)
    for trace, text in texts.found:
        tokens = [] if trace.startswith(("fingerprint:", "drawing:")) else NUMBER.findall(text)
        known = sources.numbers(trace) if tokens and trace else []
        found += [(token, trace, text) for token in tokens if not is_among(token, known)]
    return found


def test_the_numbers_of_a_nearest_change_are_those_found(matter: Callable[[str], Matter], book: Rulebook) -> None:
    plain = matter("proceed/lane-2041")
    lost = lost_remedies(plain.loaded, plain.advice, book, "drive")
    changed = plain._replace(lost=lost)
    made = page(changed)
    assert "bore 30\u00a0µm larger" in made
    assert strays(made, Sources(changed)) == []
    other = plain._replace(lost=tuple(each._replace(changes=()) for each in lost))
    assert strays(made, Sources(other)) != []


def test_the_page_has_hundreds_of_numbers(paged: Callable[[str], str]) -> None:
    texts = Texts()
    texts.feed(paged("proceed/mill-2027"))
    assert sum(len(NUMBER.findall(text)) for _, text in texts.found) > 500


def test_a_wrong_number_is_seen(matter: Callable[[str], Matter]) -> None:
    mean = matter("proceed/mill-2027").advice.sides["drive"].facts["bore.mean_diameter"].value
    known = Sources(matter("proceed/mill-2027")).numbers("drive/bore.mean_diameter")
    assert mean is not None
    assert is_among(f"{mean:.3f}", known)
    assert not is_among(f"{mean + 0.001:.3f}", known)


def test_json_holds_what_the_page_tells_of_each_side(
    matter: Callable[[str], Matter], paged: Callable[[str], str]
) -> None:
    data = json.loads(to_json(matter("proceed/mill-2027").advice))
    for low, high in (land["od_mm"] for land in data["sides"]["drive"]["make"]["lands"]):
        assert f"{(low + high) / 2:.3f} ±{(high - low) / 2:.3f}" in paged("proceed/mill-2027")

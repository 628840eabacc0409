"""What a case file says of damage, read even when the rest of the file cannot be used."""

import re
from collections.abc import Iterator
from itertools import islice
from pathlib import Path as FilePath

from recommender.bench.case import Case
from recommender.bench.damage import Damage, Sign
from recommender.bench.history import History
from recommender.ground.place import LINE_END
from recommender.ground.suggest import nearest
from recommender.reading.document import Document
from recommender.reading.files import UTF_16
from recommender.reading.steps import Step
from recommender.reading.yaml_reader import PARSER_STOPS, steps

LARGEST_BYTES = 1_000_000
DEEPEST = 60
MOST_KEYS = 200
MOST_STEPS = 300_000
INSERT_MOVED = "insert_moved"
CRASHED = "crashed"
SECTIONS = tuple(Case.model_fields)
SECTION = re.compile(r"^[^\W\d]\w*[ \t]*:", re.MULTILINE)
LONGEST_KEY, MOST_SECTIONS, LONGEST_SECTION = 40, 4, 20_000


class _Map(list[tuple[str, "_Node"]]):
    """A mapping as pairs, so that a key written twice hides nothing."""


class _Seq(list["_Node"]):
    """A list of nodes."""


_Node = str | _Map | _Seq


def peek_damage(source: Document | FilePath | str) -> tuple[str, ...]:
    """Return the signs of damage named in a case file, as written, whatever else is wrong with the file.

    `insert_moved` and `crashed` are added for a failed insert test and a crash history. Where the file stops
    being YAML, what stood before that is used, and what stands below a line that begins its section; empty when it
    cannot be read at all. The rules of the strict reader are passed by on purpose: a crack must not stay unmentioned
    because of a duplicate key elsewhere.
    """
    return peek_in(source.text if isinstance(source, Document) else _text(FilePath(source)))


def peek_in(text: str) -> tuple[str, ...]:
    """Return what `peek_damage` finds in the text of a case."""
    documents, whole = _trees(text)
    words = _words(documents)
    if not (whole and any(_under(each, "damage", SECTIONS) for each in documents[:MOST_SECTIONS])):
        words += [word for part in _sections(text) for word in _words(_trees(part)[0])]
    return tuple(dict.fromkeys(words))


def _words(documents: "_Seq") -> list[str]:
    words = [word for section in _named(documents, "damage") for word in _damage(section)]
    history = _named(documents, "history")
    return words + [CRASHED for part in history if CRASHED in _under(part, "crash", tuple(History.model_fields))]


def _named(documents: "_Seq", section: str) -> Iterator["_Node"]:
    """Yield what stands under a section's name: also misspelt at the top of the first documents, else as it is."""
    for each in documents[:MOST_SECTIONS]:
        yield from _under(each, section, SECTIONS)
    yield from islice(_anywhere(documents, section), MOST_KEYS)


def _anywhere(documents: "_Seq", key: str) -> Iterator["_Node"]:
    nodes: list[_Node] = list(documents)
    for node in nodes:  # grows meanwhile, by what stands one level deeper
        if isinstance(node, _Map):
            yield from (value for name, value in node if name == key)
            nodes += [value for _, value in node if not isinstance(value, str)]
        elif isinstance(node, _Seq):
            nodes += [each for each in node if not isinstance(each, str)]


def _sections(text: str) -> list[str]:
    """Return the pieces of a text that begin where the sections on damage and history may begin."""
    lines = LINE_END.sub("\n", text)
    found = [each.start() for each in islice(SECTION.finditer(lines), MOST_KEYS) if _wanted(each[0])]
    return [lines[start : start + LONGEST_SECTION] for start in found[:MOST_SECTIONS]]


def _wanted(key: str) -> bool:
    name = key.rstrip(": \t")
    return name in ("damage", "history") or (
        len(name) <= LONGEST_KEY and name not in SECTIONS and nearest(name, SECTIONS) in ("damage", "history")
    )


def _damage(section: _Node) -> list[str]:
    if isinstance(section, _Seq):
        return _sign_words(section)
    known = tuple(Damage.model_fields)
    words = [word for signs in _under(section, "signs", known) for word in _sign_words(signs)]
    return words + [INSERT_MOVED for test in _under(section, "insert_test", known) if test == "moved"]


def _sign_words(node: _Node) -> list[str]:
    if isinstance(node, str):
        return [node]
    if isinstance(node, _Seq):
        return [word for each in node for word in _sign_words(each)]
    named = [word for each in _under(node, "sign", tuple(Sign.model_fields)) for word in _sign_words(each)]
    return named or [key for key, _ in node]


def _under(node: _Node, wanted: str, known: tuple[str, ...]) -> list[_Node]:
    """Return what stands under a key, or under a misspelling that is closest to it."""
    if not isinstance(node, _Map):
        return []
    guess = len(node) <= MOST_KEYS
    return [
        value
        for key, value in node
        if key == wanted or (guess and key not in known and nearest(key, known) == wanted)
    ]


def _text(path: FilePath) -> str:
    try:
        if not path.is_file():
            return ""
        with path.open("rb") as opened:
            content = opened.read(LARGEST_BYTES)
            return content.decode("utf-16" if content.startswith(UTF_16) else "utf-8-sig", errors="replace")
    except OSError:
        return ""


def _trees(text: str) -> tuple[_Seq, bool]:
    """Return the trees of the documents of a YAML text as far as it goes, and whether that is to its end.

    Built without recursion, so depth cannot break it.
    """
    root = _Seq()
    open_nodes: list[_Map | _Seq] = [root]
    keys: list[str | None] = [None]
    whole = True
    try:
        for count, step in enumerate(steps(text, "")):
            _grow(open_nodes, keys, step)
            if len(open_nodes) > DEEPEST or count > MOST_STEPS:
                whole = False
                break
    except PARSER_STOPS:
        whole = False
    return root, whole


def _grow(open_nodes: list[_Map | _Seq], keys: list[str | None], step: Step) -> None:
    if step.kind == "end":
        open_nodes.pop()
        keys.pop()
        return
    node: _Node = _Map() if step.kind == "mapping" else _Seq() if step.kind == "list" else step.value
    _add(open_nodes[-1], keys, node)
    if not isinstance(node, str):
        open_nodes.append(node)
        keys.append(None)


def _add(parent: _Map | _Seq, keys: list[str | None], node: _Node) -> None:
    if isinstance(parent, _Seq):
        parent.append(node)
    elif keys[-1] is None:
        keys[-1] = node if isinstance(node, str) else ""
    else:
        parent.append((keys[-1], node))
        keys[-1] = None

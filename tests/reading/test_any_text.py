"""Whatever stands in a file, the reader gives a document or a Flawed, and both parsers agree."""

import re

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as some

from recommender.ground.flaw import Flaw, Flawed
from recommender.reading import yaml_reader
from recommender.reading.yaml_reader import FASTEST, PURE

PIECES = (
    *("a", "b: ", "- ", "[", "]", "{", "}", ", ", ": ", "\n", "\n  ", "'", '"', "&x ", "*x", "!t ", "#"),
    *(
        "|",
        ">",
        "? ",
        "?",
        "-",
        ":",
        "010",
        "1:30",
        "no",
        "~",
        "0,5",
        "\t",
        "---\n",
        "...\n",
        "%YAML 1.1\n",
        "\\",
        "\\x00",
        "<<: ",
        "\u00e4",
    ),
)
yaml_like = some.lists(some.sampled_from(PIECES), max_size=25).map("".join)


@given(some.text(max_size=200) | yaml_like)
@settings(max_examples=300, deadline=None)
@example("[" * 2000)
@example("{" * 2000)
@example("a: " * 300)
@example("? " * 200)
@example("- " * 200)
@example("\ud800")
@example('a: "\\ud800"')
@example("%YAML 99999.1\n---\na: 1")
@example("!<")
@example("a: !!" + "x" * 2000)
def test_nothing_but_flawed_is_raised(text: str) -> None:
    document, found = _outcome(text, yaml_reader.FASTEST)
    assert isinstance(document, dict) or found
    assert all(min(each.place[1:]) >= 1 and each.advice and str(each) for each in found)


@given(yaml_like)
@settings(max_examples=300, deadline=None)
@pytest.mark.skipif(PURE is FASTEST, reason="only one parser is built in")
def test_both_parsers_agree(text: str) -> None:
    # Known: only the fast parser takes `|#` for a block text with a comment and `{? a? b}` for a single key.
    assume(not re.search(r"[|>][-+0-9]*#|\?", text))
    assert _outcome(text, PURE) == _outcome(text, FASTEST)


def _outcome(text: str, loader: yaml_reader.Loader) -> tuple[object, tuple[Flaw, ...]]:
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(yaml_reader, "FASTEST", loader)
        try:
            document = yaml_reader.read_text(text, "f")
        except Flawed as refused:
            return None, refused.flaws
    return (document.data | {"places": dict(document.places)}), ()

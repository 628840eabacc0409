"""Our words for what the YAML parser complains of."""

import re
from typing import Literal, NamedTuple

from recommender.ground.flaw import Flaw, flaw
from recommender.ground.place import Place


class Problem(NamedTuple):
    """A complaint of the parser: its words, what it was doing, and (line, column) of both, counted from 1."""

    problem: str
    context: str
    at: tuple[int, int]
    began: tuple[int, int] | None


PointsTo = Literal["stop", "start", "start_of_several_lines"]


class Wording(NamedTuple):
    """What we say for a complaint, and whether it points to where the parser stopped or the thing began."""

    pattern: str
    message: str
    advice: str
    points_to: PointsTo = "stop"


WORDINGS = (
    Wording(
        r"mapping values are not allowed",
        "a second colon on this line, or a line that is indented too far",
        "Quote a text that contains `: `, or line the key up with its neighbours.",
    ),
    Wording(
        r"could not find expected ':'",
        "a line without a colon after its key",
        "Write `key: value`; a long text goes in quotes.",
        points_to="start",
    ),
    Wording(
        r"quoted scalar.*(unexpected end of stream|document separator)",
        "a quote is opened here and never closed",
        "Close the quote.",
        points_to="start",
    ),
    Wording(
        r"unknown escape|escape sequence|chr\(\)|to C int|greater than maximum|hexadecimal",
        "a backslash in double quotes starts no known escape",
        "Use single quotes, or write the backslash twice.",
    ),
    Wording(
        r"flow sequence",
        "a list in brackets is not finished: a comma or `]` is missing",
        "Separate the values by commas and close the list with `]`.",
        points_to="start_of_several_lines",
    ),
    Wording(
        r"flow mapping",
        "a mapping in braces is not finished: a comma or `}` is missing",
        "Separate the pairs by commas and close the mapping with `}`.",
        points_to="start_of_several_lines",
    ),
    Wording(
        r"block (mapping|collection|sequence).*expected <block end>",
        "this line does not line up with the lines above it",
        "Indent it like its neighbours, or quote the text before it.",
    ),
    Wording(
        r"sequence entries are not allowed",
        "a dash stands where no list can start",
        "Put the list on its own line, or quote the text.",
    ),
    Wording(
        r"cannot start any token|scanning an? (alias|anchor|directive)|scanning a tag|tag handle",
        "this character cannot start a text without quotes",
        "Put the text in quotes.",
    ),
)
OTHERWISE = Wording("", "this cannot be read as YAML", "Compare the line with its neighbours; quote unusual texts.")


def syntax_flaw(text: str, file: str, found: Problem) -> Flaw:
    """Return the flaw for what the parser complained of, in our words."""
    said = f"{found.context} {found.problem}"
    wording = next((each for each in WORDINGS if re.search(each.pattern, said)), OTHERWISE)
    line, column = _where(found, wording.points_to)
    return flaw("yaml.syntax", Place(file, line, column, line, column + 1), text, wording.message, wording.advice)


def _where(found: Problem, points_to: PointsTo) -> tuple[int, int]:
    if found.began is None or points_to == "stop":
        return found.at
    one_line = found.began[0] == found.at[0]
    return found.at if one_line and points_to == "start_of_several_lines" else found.began

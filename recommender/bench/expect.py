"""What a case used as a test expects, written before its first run."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from recommender.bench.by_hand import recompute
from recommender.bench.quantities import Name
from recommender.reading.model import Model

RuleOutcome = Literal["holds", "fails", "undecided"]
RemedyOutcome = Literal["cleared", "cleared_with_cautions", "unsettled", "ruled_out", "not_applicable"]


def _computes(text: str) -> str:
    again = recompute(text)
    if not again.agrees:
        raise ValueError(f"`{text}` does not compute; the left side is {again.found:.6g}")
    return text


class Expect(Model):
    """The verdicts and outcomes expected, and why a bench engineer would agree."""

    frame: Literal["proceed", "measure_again", "refuse"]
    drive: Name = Field(description="a remedy, measure_again, refuse or held")
    non_drive: Name = Field(description="a remedy, measure_again, refuse or held")
    rules: dict[str, RuleOutcome] = Field(default_factory=dict, description="outcomes by rule id")
    remedies: dict[Literal["drive", "non_drive"], dict[str, RemedyOutcome]] = Field(
        default_factory=dict, description="outcomes by side and remedy"
    )
    by_hand: Annotated[str, AfterValidator(_computes)] | None = Field(
        default=None,
        description="arithmetic of the deciding number in one line; None where no number decides",
    )
    why: Name | None = Field(default=None, description="why a bench engineer agrees, in one line")

"""The case: one frame on the bench, everything measured and seen."""

import re
from typing import Annotated

from pydantic import AfterValidator, Field

from recommender.bench.alignment import Alignment
from recommender.bench.damage import Damage
from recommender.bench.expect import Expect
from recommender.bench.frame import Frame
from recommender.bench.history import History
from recommender.bench.identity import Identity
from recommender.bench.instruments import Bench
from recommender.bench.parts import Part
from recommender.bench.quantities import Many, Name, OrUnknown
from recommender.bench.sides import Sides
from recommender.reading.model import Model
from recommender.reading.types import IsoDate

CASE_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.-]{0,79}")


def _case_id(given: str) -> str:
    if not CASE_ID.fullmatch(given):
        raise ValueError(
            f"`{given}` cannot be the id of a case; use at most 80 letters, digits, `-`, `_` and `.`"
        )
    return given


class Case(Model):
    """One frame on the bench. What is None or `unknown` was not measured, not looked at or not asked."""

    case: Annotated[str, AfterValidator(_case_id)] = Field(description="id of the case")
    title: Name = Field(description="what it is about, in one line")
    received: IsoDate = Field(description="the date every expiry and calibration is judged against")
    follows: Name | None = Field(default=None, description="record id of an earlier round of this frame")
    identity: Identity = Field(default_factory=Identity)
    frame: Frame
    history: History = Field(default_factory=History)
    bench: Bench
    sides: Sides
    alignment: OrUnknown[Alignment] = Field(
        default=None, description="left out or unknown when it was not measured"
    )
    damage: Damage
    parts: Many[Part] = Field(default=(), max_length=60, description="measured parts in hand")
    expect: Expect | None = Field(default=None, description="makes the case a test")

"""A limit as written in a file."""

from typing import Annotated, Literal

from pydantic import Field

from recommender.reading.model import Model
from recommender.rulebook.models.common import Sourced, Text, UnitName

Number = Annotated[float, Field(allow_inf_nan=False)]


class LimitModel(Model):
    """One named number."""

    meaning: Text = Field(description="what the number bounds, in one sentence")
    unit: UnitName = Field(description='unit of the value, "1" for a plain number')
    safe_side: Literal["higher", "lower"] = Field(description="higher or lower: moving that way is stricter")
    shop_may: Literal["tighten", "move", "nothing"] = Field(
        description="tighten, move or nothing: what a shop may do to it"
    )
    value: Number = Field(description="a bare number in the unit above")
    source: Sourced

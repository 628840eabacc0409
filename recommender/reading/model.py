"""The base of everything read from a file."""

from pydantic import BaseModel, ConfigDict


class Model(BaseModel):
    """A strict, frozen model: unknown keys are refused and nothing is converted in silence."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

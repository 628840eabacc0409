"""What can be done to a side."""

from dataclasses import dataclass
from typing import Literal

Makes = Literal["fits_part", "turned_part", "cut"]


@dataclass(frozen=True, slots=True)
class Remedy:
    """One remedy: whether it can be undone, what is made for it, and whether the owner must agree in writing."""

    id: str
    title: str
    reversible: bool
    makes: Makes
    consent: bool
    explains: str = ""

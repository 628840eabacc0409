"""What the YAML parser hands on, one step at a time, in words of our own."""

from typing import Literal, NamedTuple

from recommender.ground.place import Place

# Makes a named tuple from all its fields in order as its own call does, but faster; every step of the parser makes two.
made = tuple.__new__
Kind = Literal["mapping", "list", "end", "scalar", "alias"]


class Step(NamedTuple):
    """One step through a YAML text: a scalar, an alias, or the start or end of a mapping or list.

    `plain` is whether a scalar stands without quotes; `mark` is `tag` or `anchor` when one is attached.
    """

    kind: Kind
    place: Place
    value: str = ""
    plain: bool = False
    mark: str = ""

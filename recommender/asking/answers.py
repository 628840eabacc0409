"""What is not known of a frame and could be: the most favourable answer to each, as the case would say it."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from recommender.asking.changed_case import answered, on_side
from recommender.bench.alignment import Alignment
from recommender.bench.load import LoadedCase
from recommender.bench.quantities import MeasuredSize
from recommender.deciding.options import OptionResult
from recommender.deriving.derived import SideName
from recommender.rulebook.book import Rulebook


class Asked(NamedTuple):
    """Where an answer is asked: the case, the side, the option it is asked for, and the book."""

    loaded: LoadedCase
    side: SideName
    option: OptionResult
    book: Rulebook


Answer = Callable[[Asked], LoadedCase]


def _insert_firm(asked: Asked) -> LoadedCase:
    return answered(asked.loaded, {"damage": asked.loaded.case.damage.model_copy(update={"insert_test": "firm"})})


def _no_insert(asked: Asked) -> LoadedCase:
    return answered(asked.loaded, {"frame": asked.loaded.case.frame.model_copy(update={"insert": "none"})})


def _in_line(asked: Asked) -> LoadedCase:
    bar = Alignment.model_validate({"offset": "0 mm", "angle": "0 arcmin", "method": "bar"})
    return answered(asked.loaded, {"alignment": bar})


def _spindle_of_the_bearing(asked: Asked) -> LoadedCase:
    bearing = asked.book.bearings[asked.book.parts[asked.option.option.part_id].bearing]
    spindle = MeasuredSize.model_validate(f"{bearing.inner:g} mm")
    return answered(asked.loaded, {"frame": asked.loaded.case.frame.model_copy(update={"spindle": spindle})})


def _state(field: str, word: str) -> Answer:
    def made(asked: Asked) -> LoadedCase:
        state = getattr(asked.loaded.case.sides, asked.side).bore_state.model_copy(update={field: word})
        return on_side(asked.loaded, asked.side, {"bore_state": state})

    return made


ANSWERS: Mapping[str, tuple[str, Answer]] = {
    "damage.insert_test": ("firm", _insert_firm),
    "frame.insert": ("none", _no_insert),
    "alignment.angle": ("in line", _in_line),
    "part.spindle_room": ("the size of the bearing", _spindle_of_the_bearing),
    "bore.cleaned": ("cleaned", _state("cleaned", "yes_cleaned")),
    "bore.coating": ("none", _state("coating", "none")),
}

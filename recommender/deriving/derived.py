"""What deriving hands on: facts of the frame, of each side and of each option, and where they come from."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from recommender.facts.value import FactValue
from recommender.ground.place import Place
from recommender.mechanics.clearance import ClassLeft

SideName = Literal["drive", "non_drive"]
SIDES: tuple[SideName, SideName] = ("drive", "non_drive")


class Measured(NamedTuple):
    """One thing the bench wrote down: path in the case, in words, as shown with its spread, and its place."""

    path: str
    what: str
    shown: str
    spread: str
    assumed: bool
    place: Place


class Land(NamedTuple):
    """One land of a turned cup: where it lies on the seat (mm from the face) and the diameter to turn it to (mm)."""

    start: float
    end: float
    od: tuple[float, float]


class Collided(NamedTuple):
    """Why no diameter is left: the two limits that collide, the room missing (mm), and what would open it, in words."""

    low_limit: str
    high_limit: str
    short_by: float
    openers: tuple[str, ...] = ()


class Compounded(NamedTuple):
    """The class of retaining compound for a part: its id and title, the gaps it fills and the gap here (mm at 20 C).

    `activator_on` are the surfaces here that need its activator, `cure` the hours to full strength at 20 C.
    """

    id: str
    title: str
    gap: tuple[float, float]
    here: tuple[float, float]
    activator_on: tuple[str, ...]
    cure: float


class Make(NamedTuple):
    """What to make or fit on a side, in numbers a lathe can use; None where a number does not apply.

    `od` is the turning tolerance band (mm); `window` the measured diameters that meet every limit, with the names of
    the limits that bind its ends, `class_window` those that its fit class alone would leave, `collision` why it is
    empty; `grade` the ISO 286 grade of the band; `lead_in` the diameter its chamfer starts at and the chamfer's
    length, `lead_in_within` the half-width of that diameter's tolerance; `seat_before` the bearing seat to bore where
    the cup is pressed without its bearing; `bore` the band to ream to; `wall_left` what remains of the shell;
    `press_force` the force in N by how the seat is lubricated; `compound` the class that goes into the gap; all at
    `valid_at`.
    """

    od: tuple[float, float] | None = None
    window: tuple[float, float] | None = None
    bound_by: tuple[str, str] | None = None
    class_window: tuple[float, float] | None = None
    collision: Collided | None = None
    grade: str | None = None
    lands: tuple[Land, ...] = ()
    lead_in: tuple[float, float] | None = None
    lead_in_within: float | None = None
    seat_before: tuple[float, float] | None = None
    bore: tuple[float, float] | None = None
    sleeve: Mapping[str, tuple[float, float]] | None = None
    wall_left: float | None = None
    press_force: Mapping[str, tuple[float, float]] | None = None
    valid_at: str = "20 degC"
    compound: Compounded | None = None


class OptionFacts(NamedTuple):
    """A remedy with its part on one side, and what is known of it.

    `part` is the label people read and is unique within the remedy; `part_id` the id in the parts list. A generic
    part carries the `condition` under which alone it may be cleared. `bearing` is the designation that goes with it.
    """

    remedy: str
    part: str
    part_id: str
    facts: Mapping[str, FactValue]
    make: Make | None = None
    condition: str = ""
    classes: tuple[ClassLeft, ...] = ()
    bearing: str = ""


class Only(NamedTuple):
    """One remedy on one side, with one part or with all: what to derive where nothing else is asked."""

    side: SideName
    remedy: str
    part: str | None = None


class SideFacts(NamedTuple):
    """Facts of one side and the options that exist there, in the order of remedies and parts."""

    facts: Mapping[str, FactValue]
    options: tuple[OptionFacts, ...]


class Derived(NamedTuple):
    """Everything the rules may ask about one case.

    `inputs` of a fact value name other facts by id (looked up in the option, then the side, then the frame),
    measured things as `case:PATH`, and limits as `limit:ID`. `crack_seen` is true when any sign on the list of
    cracks stands in the case, whatever the rules say.
    """

    frame: Mapping[str, FactValue]
    sides: Mapping[SideName, SideFacts]
    measured: Mapping[str, Measured]
    crack_seen: bool

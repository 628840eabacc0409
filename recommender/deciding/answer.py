"""The advice as data: what is stored, and what every account is made from. Field names are the keys of the JSON."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Any, Literal

from recommender.deciding.trace import Trace
from recommender.deriving.derived import SideName

FORMAT: Literal["borewright/advice/1"] = "borewright/advice/1"
DECIMALS = 6
Band = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Found:
    """What is known of a fact: a number with its 95 % interval, a word, or why it is unknown or does not apply.

    `sampling` is the standard error of the interval's ends from the finite draws, `beyond` how far the interval
    that decides reaches past them; without these nobody could decide again from the stored numbers.
    `valid_at` is the temperature a diameter is valid at.
    """

    shown: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str | None = None
    word: str | bool | None = None
    unknown: str | None = None
    could_be: tuple[str, ...] | None = None
    not_applicable: bool | None = None
    assumed: bool | None = None
    sampling: float | None = None
    beyond: float | None = None
    valid_at: str | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """Where a rule or limit comes from: its mark (published, reported, common_practice, memory, shop) and the text."""

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class CheckShown:
    """One check that decided a finding: the fact, what was found and wanted, and by how much it was met or missed.

    `margin` is positive where the check holds, in `unit`; `spreads` the same in half 95 % intervals of the fact;
    both None where nothing can be measured, such as words. `node` is its id in the trace.
    """

    fact: str
    name: str
    outcome: str
    found: Found
    wanted: str
    margin: float | None
    unit: str | None
    spreads: float | None
    node: str


@dataclass(frozen=True, slots=True)
class Finding:
    """What one rule says about its subject, in numbers and in words."""

    rule: str
    title: str
    stance: str
    outcome: str
    counts_as: str
    text: str
    checks: tuple[CheckShown, ...]
    source: Source
    layer: str
    sealed: bool
    cautions: tuple[str, ...]
    deferrals: tuple[str, ...]
    node: str


@dataclass(frozen=True, slots=True)
class CollisionShown:
    """Why no diameter is left: the limits that collide, the room missing (mm), and what would open the window."""

    low_limit: str
    high_limit: str
    short_by: float
    openers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OptionShown:
    """One option and what became of it; `condition` stands where a part was not measured.

    `collision` says why no diameter is left for a part to be made, `disagreement` how fit class and physics disagree.
    """

    part: str
    part_id: str
    condition: str
    outcome: str
    findings: tuple[Finding, ...]
    facts: Mapping[str, Found]
    node: str
    collision: CollisionShown | None = None
    disagreement: str = ""


@dataclass(frozen=True, slots=True)
class RemedyShown:
    """One remedy and what became of it, that of its best option."""

    id: str
    title: str
    reversible: bool
    outcome: str
    settleable: bool
    options: tuple[OptionShown, ...]
    node: str


@dataclass(frozen=True, slots=True)
class CompoundShown:
    """The class of retaining compound for a part: the gaps it fills and the gap here (mm on diameter, at 20 degC).

    `activator_on` are the surfaces here on which it needs its activator, `cure_h` the hours to full strength.
    """

    id: str
    title: str
    gap_mm: Band
    here_mm: Band
    activator_on: tuple[str, ...]
    cure_h: float


@dataclass(frozen=True, slots=True)
class LandShown:
    """One land of a turned cup, mm from the face, with the band of diameter to turn it to."""

    start_mm: float
    end_mm: float
    od_mm: Band


@dataclass(frozen=True, slots=True)
class MakeShown:
    """What to fit, turn or cut on a side; diameters in mm, forces in N; `before_work` is what must come first.

    `press_force` spans every way to lubricate the seat, `press_forces` tells them apart; `lead_in` is the diameter a
    chamfer starts at and its length, `lead_in_within` the half-width of that diameter's tolerance; `seat_before` the
    bearing seat of a cup that is pressed without its bearing.
    """

    part: str
    part_id: str
    condition: str
    od_mm: Band | None
    window_mm: Band | None
    bound_by: tuple[str, str] | None
    tolerance: float | None
    bore_mm: Band | None
    sleeve: Mapping[str, Band]
    lands: tuple[LandShown, ...]
    wall_left: float | None
    press_force: Band | None
    valid_at: str
    before_work: tuple[str, ...]
    released: bool
    grade: str | None = None
    measured_within: float | None = None
    lead_in: Band | None = None
    seat_before: Band | None = None
    press_forces: Mapping[str, Band] = field(default_factory=dict)
    collision: CollisionShown | None = None
    lead_in_within: float | None = None
    compound: CompoundShown | None = None
    class_window_mm: Band | None = None


@dataclass(frozen=True, slots=True)
class ClassShown:
    """One clearance class of a bearing: the clearance it leaves (um, low and high end), and why not to order it."""

    name: str
    left_um: Band
    why_not: str


@dataclass(frozen=True, slots=True)
class RatingShown:
    """Ratings (N) of a bearing and what follows from them, for information.

    `life_h` are the hours nine of ten reach under `mean_load_n` at `turns_per_minute`; `static_reserve` is the static
    rating over the load that `test_force_n` at the pedal puts on it, None where that is not known.
    """

    dynamic_n: float
    static_n: float
    life_h: float
    mean_load_n: float
    turns_per_minute: float
    static_reserve: float | None
    test_force_n: float
    source: str


@dataclass(frozen=True, slots=True)
class BearingShown:
    """The bearing that belongs to the chosen part; sizes in mm, None where the parts list does not know.

    `clearance_class` is the one to order, or with `in_hand` the one that lies there; `classes` all that are sold, that
    one first. Where the stated spindle is thinner than the bore, `reducer` is what goes between (its outside and its
    bore) and `bore_of_spindle` names the bearings of this outside diameter that need none.
    """

    designation: str
    d: float | None
    D: float | None
    B: float | None
    clearance_class: str | None
    classes: tuple[ClassShown, ...] = ()
    in_hand: bool = False
    reducer: Band | None = None
    bore_of_spindle: tuple[str, ...] = ()
    rating: RatingShown | None = None


@dataclass(frozen=True, slots=True)
class ConformityShown:
    """What is proved against the standard, which is another question than whether a part fits.

    `nominal`, `lower` and `upper` are the standard's own sizes of the bore in mm, None where it names none.
    """

    size: str
    envelope: str
    form: str
    limit_source: str
    nominal: float | None = None
    lower: float | None = None
    upper: float | None = None


@dataclass(frozen=True, slots=True)
class SideShown:
    """One side: its verdict, the remedy and part behind it, and every remedy with what became of it."""

    verdict: str
    remedy: str | None
    reason: str
    make: MakeShown | None
    bearing: BearingShown | None
    conformity: ConformityShown
    remedies: tuple[RemedyShown, ...]
    findings: tuple[Finding, ...]
    stopped_by: tuple[Finding, ...]
    facts: Mapping[str, Found]
    node: str


@dataclass(frozen=True, slots=True)
class FrameShown:
    """The frame: its verdict, why, and what the rules about the frame found."""

    verdict: str
    reasons: tuple[str, ...]
    damage: bool
    findings: tuple[Finding, ...]
    facts: Mapping[str, Found]
    node: str


@dataclass(frozen=True, slots=True)
class Question:
    """Something open: the fact, on which side (None: the frame), what to do, and what it would settle."""

    fact: str | None
    name: str
    side: SideName | None
    do: str
    would_settle: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """A caution, deferral or notice: id of its wording, the text, the sides it is for (none: the frame), and why."""

    id: str
    text: str
    sides: tuple[SideName, ...]
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CauseShown:
    """What speaks for and against one way the bore of a side may have come to be; only "consistent with"."""

    cause: str
    side: SideName
    speaks_for: tuple[Finding, ...]
    speaks_against: tuple[Finding, ...]
    open: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class CaseShown:
    """Which case this is about."""

    id: str
    title: str
    received: str
    follows: str | None


@dataclass(frozen=True, slots=True)
class BookShown:
    """Which rules judged: fingerprint of the whole book in force, and whether the shipped files were edited."""

    fingerprint: str
    edited: bool


@dataclass(frozen=True, slots=True)
class Advice:
    """Everything the tool has to say about one case."""

    case: CaseShown
    frame: FrameShown
    sides: Mapping[SideName, SideShown]
    questions: tuple[Question, ...]
    causes: tuple[CauseShown, ...]
    cautions: tuple[Words, ...]
    deferrals: tuple[Words, ...]
    notices: tuple[Words, ...]
    house_changes: tuple[Mapping[str, Any], ...]
    rulebook: BookShown
    engine: str
    trace: Trace
    format: Literal["borewright/advice/1"] = field(default=FORMAT)


def as_data(advice: Advice) -> dict[str, Any]:
    """Return the advice as plain data, ready for JSON: mappings, lists, text, numbers, booleans and None."""
    data: dict[str, Any] = _plain(advice)
    return data


def to_json(advice: Advice) -> str:
    """Return the advice as one line of JSON with sorted keys; the same advice gives the same bytes."""
    return json.dumps(as_data(advice), sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _plain(value: Any) -> Any:
    if isinstance(value, Trace):
        return value.as_data()
    if isinstance(value, Found | ConformityShown):
        return {each.name: _plain(known) for each in fields(value) if (known := getattr(value, each.name)) is not None}
    if hasattr(value, "__dataclass_fields__"):
        return {each.name: _plain(getattr(value, each.name)) for each in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(each) for each in value]
    return round(value, DECIMALS) + 0.0 if isinstance(value, float) else value

import pytest

from recommender.metrology.identify import ovality_bound, seen
from recommender.metrology.sheet import Gauge, Reading, Span

TWO, THREE = "two_point", "three_point"


@pytest.mark.parametrize(
    ("plan", "depths", "rank", "shown"),
    [
        ([(THREE, (0,))], (3, 8, 13), 2, "taper"),
        ([(THREE, (0, 120, 240))], (3, 8, 13), 2, "taper"),
        ([(THREE, (0, 60))], (3, 13), 3, "size taper"),
        ([(THREE, (0, 40, 80))], (3, 13), 4, "size taper lobing"),
        ([(TWO, (0, 90))], (3, 13), 3, "size taper"),
        ([(TWO, (0, 60, 120))], (3, 13), 4, "size taper ovality"),
        ([(TWO, (0, 90)), (THREE, (0, 60))], (3, 13), 4, "size taper"),
        ([(TWO, (0, 60, 120)), (THREE, (0, 40, 80))], (3, 13), 6, "size taper ovality lobing"),
        ([(TWO, (0, 60, 120)), (THREE, (0, 40, 80))], (8,), 5, "size ovality lobing"),
        ([(TWO, (0, 45, 90))], (3, 13), 4, "size taper ovality"),
        ([(TWO, (0, 30, 60))], (3, 13), 4, "size taper ovality"),
        ([(TWO, (0, 3, 6))], (3, 13), 4, "taper"),
        ([(TWO, (0, 60, 120))], (8, 8.2), 4, "size ovality"),
    ],
)
def test_what_a_plan_shows(bench, plan, depths, rank: int, shown: str) -> None:
    readings = [reading for sees, turns in plan for reading in bench.read(sees, turns, depths)]
    found = seen(bench.sheet(*readings))
    assert found.rank == rank
    assert {name for name in ("size", "taper", "ovality", "lobing") if getattr(found, name)} == set(shown.split())
    assert found.depths == len(depths)
    assert found.count == len(readings)


@pytest.mark.parametrize(("sees", "part"), [(TWO, "ovality"), (THREE, "lobing")])
def test_a_full_turn_shows_the_form_its_instrument_sees(bench, sees, part: str) -> None:
    found = seen(bench.sheet(spans=(Span(40.99, 41.01, "mic", sees, 8.0, 0.001),)))
    assert (found.ovality, found.lobing) == (part == "ovality", part == "lobing")
    assert found.size
    assert found.count == 2


def test_a_depth_read_in_two_ways_counts_once(bench) -> None:
    span = Span(40.99, 41.01, "mic", THREE, 8.0, 0.001)
    spans = span, span._replace(depth=13.0), span._replace(depth=None)
    assert seen(bench.sheet(*bench.read(TWO, (0, 60, 120), (3, 8)), spans=spans)).depths == 3


def test_full_turns_are_counted_by_the_depths_that_two_contacts_went_round(bench) -> None:
    span = Span(40.99, 41.01, "two", TWO, 3.0, 0.001)
    beside = span._replace(sees=THREE, instrument="mic"), span._replace(depth=13.0, full_turn=False)
    spans = span, span._replace(smallest=40.98), span._replace(depth=8.0), *beside
    assert seen(bench.sheet(*bench.read(TWO, (0, 60, 120), (3, 8)), spans=spans)).full_turns == 2
    assert seen(bench.sheet(*bench.read(TWO, (0, 60, 120), (3, 8)))).full_turns == 0


def test_loose_readings_show_nothing_for_certain(bench) -> None:
    loose = [Reading(41.0 + step / 1000, "two", TWO, 8.0, None, 0.001) for step in range(5)]
    found = seen(bench.sheet(*loose))
    assert not any((found.size, found.taper, found.ovality, found.lobing))


def test_nothing_read_shows_nothing(bench) -> None:
    found = seen(bench.sheet())
    assert (found.count, found.depths, found.rank, found.size) == (0, 0, 0, False)


def test_plug_and_three_point_readings_bound_ovality_at_twice_their_difference(bench) -> None:
    mean = bench.read(THREE, (0, 40, 80), (13,))
    sheet = bench.sheet(*mean, gauges=(Gauge("go", 40.990, 0.001, "enters_fully"),))
    found = ovality_bound(sheet)
    assert found.most == pytest.approx(2 * (41.006 - 40.990))
    assert found.u == pytest.approx(2 * (0.001**2 / 3 + 0.002**2 + 0.001**2) ** 0.5)


def test_a_short_plug_bounds_nothing_deeper(bench) -> None:
    readings = bench.read(THREE, (0, 40, 80), (3, 13))
    short = Gauge("go", 40.990, 0.001, "enters_fully", length=6.0)
    assert ovality_bound(bench.sheet(*readings, gauges=(short,))).most == pytest.approx(2 * (41.018 - 40.990))


@pytest.mark.parametrize("result", ["did_not_enter", None])
def test_no_bound_without_a_plug_that_went_in(bench, result) -> None:
    gauges = (Gauge("go", 40.990, 0.001, result),) if result else ()
    assert ovality_bound(bench.sheet(*bench.read(THREE, (0, 40, 80), (3,)), gauges=gauges)) is None


def test_no_bound_from_two_point_readings(bench) -> None:
    plug = Gauge("go", 40.990, 0.001, "enters_fully")
    assert ovality_bound(bench.sheet(*bench.read(TWO, (0, 60, 120), (3,)), gauges=(plug,))) is None

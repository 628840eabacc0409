"""A bore known by scanned sections: its posterior, its draws, and beside other readings."""

from math import cos, radians, sin

import numpy as np
import pytest

from recommender.metrology.agreement import agreement, pairs
from recommender.metrology.circles import maximum_inscribed
from recommender.metrology.draws import draw
from recommender.metrology.harmonics import harmonics
from recommender.metrology.identify import seen
from recommender.metrology.model import posterior
from recommender.metrology.response import lobed
from recommender.metrology.rows import SIZE, TAPER, THREE_LOBES, TWO_LOBES
from recommender.metrology.scan import form_of, from_polar
from recommender.metrology.scores import normal_scores
from recommender.metrology.sheet import Scan, Sheet
from recommender.metrology.side_budget import side_budget
from recommender.metrology.summary import summarise

DEPTHS = (2.0, 8.0, 14.0)
NOISE = 0.0005
SHARED = (("instrument cmm", 0.002),)


def scans_of(bore, count: int = 36, noise: float = 0.0, random=None, other=(), turned: float = 0.0) -> tuple[Scan, ...]:
    """Sections of a bore of the model, 16 mm deep, scanned at even angles."""
    angles = np.arange(count) * 360.0 / count
    form = [(n, np.hypot(bore[2 * n - 2], bore[2 * n - 1]) / 2,
             -np.degrees(np.arctan2(bore[2 * n - 1], bore[2 * n - 2]))) for n in (2, 3)]
    found = []
    for depth in DEPTHS:
        radii = lobed((bore[SIZE] + bore[TAPER] * (depth - 8)) / 2, *form, *other)(np.radians(angles - turned))
        radii = radii + (0 if random is None else random.normal(0, noise, count))
        points = from_polar(radii, angles, (0.03, -0.02))
        found.append(Scan(tuple(map(tuple, points.tolist())), "cmm", depth, 2 * (noise or NOISE), SHARED))
    return tuple(found)


def scanned(bench, *scans: Scan) -> Sheet:
    return bench.sheet()._replace(scans=scans)


def test_points_without_noise_give_the_bore_back(bench) -> None:
    found = posterior(scanned(bench, *scans_of(bench.bore)))
    assert found.mean[SIZE] == pytest.approx(bench.bore[SIZE], abs=1e-4)
    assert found.mean[TAPER] == pytest.approx(bench.bore[TAPER], abs=1e-5)
    assert found.mean[[*TWO_LOBES, *THREE_LOBES]] == pytest.approx(bench.bore[2:6], abs=1e-4)


def test_rows_of_points_say_what_least_squares_over_all_points_says() -> None:
    points = from_polar(lobed(20.5, (2, 0.01, 10), (3, 0.004, 50), (5, 0.002, 5), (7, 0.003, 1))(
        np.radians(np.arange(0, 360, 7.5))), np.arange(0, 360, 7.5))
    rows = np.array(harmonics(points))
    size, *form = np.linalg.solve(rows[:, 1:], rows[:, 0])
    assert size == pytest.approx(41.0, abs=2e-5)
    assert [np.hypot(*form[at:at + 2]) for at in (0, 2, 4)] == pytest.approx([0.02, 0.008, 0.004], abs=2e-5)
    assert form[0] == pytest.approx(0.02 * cos(radians(10)), abs=2e-5)
    assert form[1] == pytest.approx(-0.02 * sin(radians(10)), abs=2e-5)


@pytest.mark.parametrize(("count", "lobes", "told_apart"), [
    (33, 4, True), (30, 4, False), (39, 6, True), (36, 6, False),
])
def test_further_lobes_are_told_apart_where_there_are_three_points_to_each_unknown(count, lobes, told_apart) -> None:
    """Uneven points mix lobes: 4 take two unknowns beside the nine of size, place and 2, 3, 5 lobes; 6 two more."""
    angles = np.sort(np.random.default_rng(5).uniform(0, 360, count))
    rows = np.array(harmonics(from_polar(lobed(20.5, (lobes, 0.01, 20))(np.radians(angles)), angles)))
    size, *form = np.linalg.solve(rows[:, 1:], rows[:, 0])
    assert bool(max(abs(size - 41.0), *np.abs(form)) < 1e-4) is told_apart


def test_a_scan_sees_everything_and_leans_on_nothing(bench) -> None:
    found = seen(scanned(bench, *scans_of(bench.bore)))
    assert (found.size, found.taper, found.ovality, found.lobing) == (True, True, True, True)
    assert (found.depths, found.count, found.rank) == (3, 108, 6)


def test_an_error_of_size_shared_by_all_points_stays_in_the_mean(bench) -> None:
    found = posterior(scanned(bench, *scans_of(bench.bore)))
    assert np.sqrt(found.covariance[SIZE, SIZE]) >= 0.002
    budget = side_budget(scanned(bench, *scans_of(bench.bore)))
    assert budget.u == pytest.approx(np.sqrt(sum(each.share**2 for each in budget.lines)), rel=1e-9)
    assert next(each.share for each in budget.lines if each.instrument == "cmm" and each.name == "instrument") == (
        pytest.approx(0.002, rel=0.02))


@pytest.mark.parametrize("lobes", [5, 7])
def test_lobes_no_gauge_sees_take_from_the_inscribed_diameter(bench, lobes: int) -> None:
    sheet = scanned(bench, *scans_of(bench.bore, 120, other=((lobes, 0.004, 20),)))
    drawn = draw(posterior(sheet), sheet, normal_scores(16))
    exact = min(maximum_inscribed(np.array(each.points)).diameter for each in sheet.scans) - 2 * abs(bench.bore[TAPER])
    found = summarise(drawn.inscribed, drawn.weights, drawn.effective_count)
    assert found.value == pytest.approx(exact, abs=3e-4)
    without = scanned(bench, *scans_of(bench.bore, 120))
    plain = draw(posterior(without), without, normal_scores(16))
    assert found.value < summarise(plain.inscribed, plain.weights, plain.effective_count).value - 5e-4


def test_turning_the_part_on_the_machine_changes_nothing_but_the_phase(bench) -> None:
    made = []
    for turned in (0.0, 30.0):
        sheet = scanned(bench, *scans_of(bench.bore, turned=turned))
        drawn = draw(posterior(sheet), sheet, normal_scores(16))
        made.append([summarise(getattr(drawn, name), drawn.weights, drawn.effective_count).value
                     for name in ("mean", "inscribed", "widest", "ovality", "lobing")])
    assert made[0] == pytest.approx(made[1], abs=2e-5)


def test_a_scan_agrees_with_a_micrometer_that_agrees_and_not_with_one_that_does_not(bench) -> None:
    read = bench.read("three_point", (0, 40, 80), DEPTHS)
    good = scanned(bench, *scans_of(bench.bore))._replace(readings=read)
    bad = good._replace(readings=tuple(each._replace(value=each.value + 0.02) for each in read))
    assert agreement(good).probability > 0.5
    assert agreement(bad).probability < 1e-6
    assert [(each.first, each.second) for each in pairs(bad)] == [("cmm", "mic")]
    assert abs(pairs(bad)[0].e_n) > 1


def test_intervals_of_scanned_bores_hold_the_truth(bench) -> None:
    """60 bores of the assumed population, five lobes and point noise in them: 95 % intervals, 3 sigma of 60."""
    random, held = np.random.default_rng(5), {"mean": 0, "inscribed": 0, "ovality": 0}
    for _ in range(60):
        bore = np.array([41.0, random.normal() * 0.0005, *random.normal(0, 0.008, 2), *random.normal(0, 0.005, 2)])
        five = (5, random.rayleigh(0.002) / 2, random.uniform(0, 360))
        shift = random.normal() * 0.002
        sheet = scanned(bench, *scans_of(bore + np.array([shift, 0, 0, 0, 0, 0]), 72, NOISE, random, (five,)))
        drawn = draw(posterior(sheet), sheet, normal_scores(16))
        truth = {"mean": 41.0, "ovality": 2 * np.hypot(*bore[2:4])}
        exact = scans_of(bore, 360, other=(five,))
        truth["inscribed"] = maximum_inscribed(np.array(exact[1].points)).diameter - abs(bore[1]) * 8
        for name, value in truth.items():
            found = summarise(getattr(drawn, name), drawn.weights, drawn.effective_count)
            held[name] += found.low <= value <= found.high
    assert min(held.values()) >= 52, held


def test_form_of_a_bent_bore_leaves_room_between_its_bounds() -> None:
    angles = np.arange(0, 360, 5.0)
    straight, bent = ([
        Scan(tuple(map(tuple, from_polar(np.full(72, 20.5), angles, (much * (depth == 8.0), 0.0)).tolist())), "cmm",
             depth, 0.001) for depth in DEPTHS] for much in (0.0, 0.004))
    assert form_of(straight).bent == pytest.approx(0.0, abs=1e-9)
    assert form_of(bent).bent > 0.003


def test_form_is_that_of_the_worst_section_inside_and_outside() -> None:
    """Lobes of 5 um on the radius stand 10 um inside and outside of the diameter; the other section is round."""
    angles = np.arange(0, 360, 2.5)
    scans = [Scan(tuple(map(tuple, from_polar(lobed(20.5, *form)(np.radians(angles)), angles).tolist())), "cmm", depth,
                  0.001) for depth, form in ((2.0, ()), (8.0, ((3, 0.005, 0),)))]  # fmt: skip
    for order in (scans, scans[::-1]):
        assert form_of(order)[:2] == pytest.approx((0.010, 0.010), abs=2e-4)


def test_what_a_bent_bore_takes_lies_evenly_between_its_bounds_and_the_noise_of_points_besides(bench) -> None:
    """An even spread over a width has a deviation of its twelfth part's root; independent, so squares add up."""
    angles = np.arange(0, 360, 5.0)
    scans = tuple(Scan(tuple(map(tuple, from_polar(lobed(20.5, (3, 0.01, 0))(np.radians(angles)), angles,
                                                   (0.004 * (depth == 8.0), 0.0)).tolist())), "cmm", depth, 0.001,
                       SHARED)
                  for depth in DEPTHS)  # fmt: skip
    sheet, form = scanned(bench, *scans), form_of(scans)
    drawn = draw(posterior(sheet), sheet, normal_scores(16))
    assert form.bent > 0.0025
    assert np.mean(drawn.loss) == pytest.approx(form.inside + form.bent / 2, abs=1e-4)
    assert np.std(drawn.loss) == pytest.approx(np.hypot(form.bent / np.sqrt(12), 0.001), rel=0.02)

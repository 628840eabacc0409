"""The budget of a side adds up to the posterior, and agrees with an independent GUM calculator."""

from math import inf, sqrt

import numpy as np
import pytest
from scipy import stats

from recommender.metrology.model import posterior
from recommender.metrology.rows import BOW, SIZE, UNKNOWNS
from recommender.metrology.sheet import Reading, Span
from recommender.metrology.side_budget import Part, capability, side_budget
from recommender.metrology.student import coverage_factor


def full_sheet(bench):
    two = bench.read("two_point", (0, 60, 120), (3, 13), u=0.002, offset_u=0.003)
    three = bench.read("three_point", (0, 40, 80), (3, 8, 13), u=0.0015, offset_u=0.002)
    both = tuple(each._replace(shared=(*each.shared, ("temperature", 0.0006))) for each in (*two, *three))
    return bench.sheet(*both)


def posterior_u(sheet) -> float:
    asked = np.zeros(UNKNOWNS)
    asked[SIZE], asked[BOW] = 1.0, 2 / 3
    return float(np.sqrt(asked @ posterior(sheet).covariance @ asked))


@pytest.mark.parametrize("kind", ["grid", "three-point only", "spans", "loose", "one reading"])
def test_the_lines_add_up_to_the_posterior(bench, kind: str) -> None:
    spans = (Span(40.99, 41.03, "two", "two_point", 3.0, 0.002, (("instrument two", 0.003),)),
             Span(41.0, 41.02, "mic", "three_point", None, 0.002, (("instrument mic", 0.003),)))
    sheet = {
        "grid": full_sheet(bench),
        "three-point only": bench.sheet(*bench.read("three_point", (0, 40, 80), (3, 13))),
        "spans": bench.sheet(spans=spans),
        "loose": bench.sheet(*(each._replace(turn=None, depth=None) for each in full_sheet(bench).readings)),
        "one reading": bench.sheet(*bench.read("three_point", (0,), (8,))),
    }[kind]
    made = side_budget(sheet)
    assert made.u == pytest.approx(posterior_u(sheet), rel=1e-9)
    assert sqrt(sum(line.share**2 for line in made.lines)) == pytest.approx(made.u, rel=1e-12)
    assert all(line.share == pytest.approx(line.u * line.sensitivity) for line in made.lines)


def test_an_error_split_into_its_sources_stays_the_same_in_all(bench) -> None:
    sheet = full_sheet(bench)
    parts = {
        "own mic": (Part("repeatability", 0.0012, "normal", 9), Part("resolution", 0.0009, "rectangular")),
        "instrument mic": (Part("error limit", 0.0016, "rectangular", 8), Part("drift", 0.0012, "rectangular")),
    }
    plain, split = side_budget(sheet), side_budget(sheet, parts)
    assert split.u == pytest.approx(plain.u)
    assert plain.degrees == inf
    assert 8 < split.degrees < inf
    assert {"repeatability", "resolution", "error limit", "drift"} <= {line.name for line in split.lines}
    assert split.expanded > plain.expanded


def test_the_error_of_an_instrument_is_shown_with_that_of_its_worst_reading(bench) -> None:
    fine, coarse = bench.read("three_point", (0, 40), (3, 13), u=0.001), bench.read("three_point", (80,), (3,), u=0.003)
    lines = {line.name: line for line in side_budget(bench.sheet(*fine, *coarse)).lines}
    assert lines["reading"].u == 0.003
    form = bench.sheet(*(each._replace(turn=None, depth=None) for each in fine))
    assert {line.name for line in side_budget(form).lines} >= {"reading", "form at turns not recorded"}
    assert "form at turns not recorded" not in lines


def test_gtc_gives_the_same_budget(bench) -> None:
    """The whole estimate is rebuilt from uncertain numbers, so neither sensitivities nor degrees are ours."""
    gtc = pytest.importorskip("GTC")
    parts = {"own mic": (Part("repeatability", 0.0015, "normal", 9),),
             "own two": (Part("repeatability", 0.002, "normal", 5),),
             "instrument mic": (Part("error limit", 0.002, "rectangular", 8),),
             "instrument two": (Part("error limit", 0.003, "rectangular", 12),)}
    sheet = full_sheet(bench)
    made = side_budget(sheet, parts)
    named = {name: gtc.ureal(0.0, u, df) for name, u, df in (
        ("instrument mic", 0.002, 8), ("instrument two", 0.003, 12), ("temperature", 0.0006, inf))}
    # weighted least squares by its textbook formula, with the deviations assumed of form as further observations
    found = posterior(sheet)
    covariance = np.diag([each.u**2 for each in sheet.readings])
    for name in named:
        doubt = np.array([dict(each.shared).get(name, 0.0) for each in sheet.readings])
        covariance += np.outer(doubt, doubt)
    design = np.array([_row(each, sheet.seat_depth) for each in sheet.readings])
    information = np.linalg.inv(covariance)
    prior = np.diag([0.0, *(found.prior_sd[1:] ** -2.0)])
    asked = np.array([1.0, *[0.0] * 7, 2 / 3])
    solve = asked @ np.linalg.inv(design.T @ information @ design + prior)
    weights, from_prior = solve @ design.T @ information, solve @ prior
    result = sum(weight * (each.value + sum(named[name] for name, _ in each.shared))
                 for weight, each in zip(weights, sheet.readings, strict=True))
    # readings of one instrument share one estimate of repeatability: their own errors enter as one input
    for name, df in (("mic", 9), ("two", 5)):
        own = sqrt(sum(weight**2 * each.u**2 for weight, each in zip(weights, sheet.readings, strict=True)
                       if each.instrument == name))
        result = result + gtc.ureal(0.0, own, df)
    result = result + sum(float(c) * gtc.ureal(0.0, float(sd), inf)
                          for c, sd in zip(from_prior[1:], found.prior_sd[1:], strict=True))
    assert made.value == pytest.approx(gtc.value(result), abs=1e-6)
    assert made.u == pytest.approx(gtc.uncertainty(result), rel=1e-9)
    assert made.degrees == pytest.approx(gtc.dof(result), rel=1e-9)
    assert made.expanded == pytest.approx(coverage_factor(gtc.dof(result)) * gtc.uncertainty(result), rel=1e-9)


def _row(reading: Reading, seat: float) -> list[float]:
    lobes, place = (2, 0) if reading.sees == "two_point" else (3, 2)
    form = [0.0] * 6
    form[place : place + 2] = [np.cos(np.radians(lobes * reading.turn)), np.sin(np.radians(lobes * reading.turn))]
    return [1.0, reading.depth - seat / 2, *form, 1 - (2 * reading.depth / seat - 1) ** 2]


@pytest.mark.parametrize("level", [0.9, 0.95, 0.9545, 0.99])
@pytest.mark.parametrize("degrees", [1, 2, 3, 4, 5, 8, 16, 17, 60, 500])
def test_coverage_factors_are_those_of_student(degrees: int, level: float) -> None:
    assert coverage_factor(degrees, level) == pytest.approx(stats.t.ppf((1 + level) / 2, degrees), rel=1e-9)


def test_coverage_factors_truncate_and_end_at_the_normal() -> None:
    assert coverage_factor(16.75, 0.99) == coverage_factor(16, 0.99) == pytest.approx(2.92, abs=0.005)
    assert coverage_factor(inf) == pytest.approx(1.95996, abs=1e-5)
    with pytest.raises(ValueError, match="level"):
        coverage_factor(5, 1.0)


def test_capability_tells_what_cannot_be_decided() -> None:
    fine, calliper = capability(0.00271, 41.0, 41.025), capability(0.040 / sqrt(3), 41.0, 41.025)
    assert fine.ratio == pytest.approx(2.3, abs=0.05)
    assert fine.decides
    assert calliper.ratio == pytest.approx(0.27, abs=0.005)
    assert not calliper.decides
    assert calliper.provable == 0
    with pytest.raises(ValueError, match="above zero"):
        capability(0.0, 41.0, 41.025)

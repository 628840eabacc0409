"""Instruments, and cases written from readings."""

from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.bench.instruments import Instrument
from recommender.bench.load import LoadedCase, load_case

CASE = """\
case: asked-1
title: made up
received: 2026-05-04
frame:
  {{material: carbon, standard: pf30, shell_width: 68.0 mm, wall: 3.0 mm, spindle: 30 mm, insert: none, openings: []}}
history:
  {{symptoms: [creak], ruled_out_elsewhere: [pedals, seat_post], crash: no_crash, cups: [], warranty: closed,
   consent: []}}
bench:
  frame_temperature: 20.0 degC
  instruments:
    - {{id: mic, kind: three_point_micrometer, range: [40 mm, 50 mm], error_limit: 4 um, resolution: 1 um,
       calibrated: 2026-02-11, ring: {{size: 46.000 mm, before: 46.000 mm, after: 46.001 mm}}}}
    - {{id: two, kind: two_point_gauge, range: [35 mm, 60 mm], error_limit: 5 um, resolution: 1 um,
       calibrated: 2026-02-11, ring: {{size: 46.000 mm, before: 46.001 mm, after: 46.001 mm}}}}
sides:
  drive:
    seat_depth: 10 mm
    bore_state: {{cleaned: yes_cleaned, coating: none, cut_before: uncut}}
    readings:
{drive}
  non_drive:
    seat_depth: 10 mm
    bore_state: {{cleaned: yes_cleaned, coating: none, cut_before: uncut}}
    readings:
{non_drive}
alignment: {{offset: 0.04 mm, angle: 3 arcmin, method: bar}}
damage:
  looked_at: {{bore: lamp, lip: lamp, shell_outside: tap, joint: lamp}}
  signs: []
parts:
  - {{part: polymer_cup_46, side: drive, od: 46.031 mm, bearing_fitted: fitted}}
  - {{part: polymer_cup_46, side: non_drive, od: 46.031 mm, bearing_fitted: fitted}}
"""
MIC = """\
      - {instrument: mic, unit: mm, turns: [0, 40, 80],
         at: {2: [45.974, 45.973, 45.971], 5: [45.974, 45.971, 45.972], 8: [45.975, 45.973, 45.972]}}
"""
FULL = MIC + """\
      - {instrument: two, unit: mm, turns: [0, 60, 120],
         at: {2: [45.974, 45.975, 45.971], 8: [45.975, 45.974, 45.971]}}
"""


@pytest.fixture(scope="session")
def mic() -> Instrument:
    return Instrument.model_validate({"id": "mic", "kind": "three_point_micrometer"})


@pytest.fixture(scope="session")
def two() -> Instrument:
    return Instrument.model_validate({"id": "two", "kind": "two_point_gauge"})


@pytest.fixture
def case_with(tmp_path: Path) -> Callable[..., LoadedCase]:
    """Return a function that loads a case whose drive side holds the full plan unless told otherwise."""

    def made(drive: str = FULL, non_drive: str = FULL) -> LoadedCase:
        path = tmp_path / "case.yaml"
        path.write_text(CASE.format(drive=drive.rstrip("\n"), non_drive=non_drive.rstrip("\n")), "utf-8")
        return load_case(path)

    return made


@pytest.fixture
def square_two_point() -> str:
    """Return blocks of a side read three-point in full but two-point at right angles only."""
    return MIC + """\
      - {instrument: two, unit: mm, turns: [0, 90], at: {2: [45.973, 45.974], 8: [45.974, 45.973]}}
"""


@pytest.fixture
def three_point_only() -> str:
    return MIC

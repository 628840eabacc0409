"""One valid case, and ways to break it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.bench.load import LoadedCase, load_case

VALID = """\
case: lane-2041
title: "Carbon 46 mm shell, third set of cups creaks"
received: 2026-05-04
follows: null
identity:
  {serial: L-4471, model_year: 2024, engineer: bench 2,
   photos: {p07: {file: p07.jpg, caption: "scratch under the shell"}}, notes: ""}
frame:
  {material: carbon, standard: pf30, shell_width: 68.1 mm, wall: 3.0 mm, spindle: 30 mm, insert: none,
   openings: [{kind: port, side: non_drive, size: 8 mm, ligament: 6 mm}]}
history:
  {symptoms: [creak], ruled_out_elsewhere: [pedals, seat_post], crash: no_crash,
   cups: [{material: polymer, fitted: 2, months: 26, od: 46.03 mm}], warranty: open, consent: []}
bench:
  frame_temperature: 20.4 degC
  instruments:
    - {id: mic, kind: three_point_micrometer, range: [40 mm, 50 mm], error_limit: 4 um, resolution: 1 um,
       calibrated: 2026-02-11, ring: {size: 46.000 mm, before: 46.001 mm, after: 46.001 mm}}
    - {id: two, kind: two_point_gauge, range: [35 mm, 60 mm], error_limit: 5 um, resolution: 1 um,
       calibrated: 2026-02-12}
sides:
  drive:
    seat_depth: 10 mm
    bore_state: {cleaned: yes_cleaned, coating: none, cut_before: uncut}
    readings:
      - instrument: mic
        unit: mm
        turns: [0, 40, 80]
        at: {2: [45.972, 45.975, 45.973], 5: [45.970, 45.972, 45.971], 8: [45.971, 45.973, 45.972]}
      - {instrument: two, unit: mm, turns: [0, 60, 120],
         at: {2: [45.974, 45.970, 45.975], 8: [45.973, 45.971, 45.974]}}
    gauges:
      - {kind: go, size: 45.950 mm, result: enters_fully}
      - {kind: no_go, size: 46.000 mm, result: did_not_enter}
    press: {force: unknown, feel: unknown}
  non_drive:
    seat_depth: 10 mm
    bore_state: {cleaned: yes_cleaned, coating: none, cut_before: uncut}
    readings:
      - instrument: mic
        unit: mm
        turns: [0, 40, 80]
        at: {2: [[45.978, 45.979], 45.981, 45.980], 8: [45.980, 45.982, 45.981]}
        struck: {8: {40: slipped}}
      - {instrument: two, unit: mm, spans: {2: [45.976, 45.983]}}
      - {instrument: two, unit: mm, loose: [45.98]}
    gauges: [{kind: go, size: 45.950 mm, result: enters_fully}]
alignment: {offset: 0.04 mm, angle: 3 arcmin, method: bar}
damage:
  looked_at: {bore: lamp, lip: eye, shell_outside: tap, port_edge: lamp, joint: [eye, tap]}
  insert_test: unknown
  signs: [{sign: lacquer_scratch, where: shell_outside, side: drive, length: 22 mm, photo: p07}]
parts:
  - {part: polymer_cup_46, side: drive, od: 46.032 mm}
  - {part: polymer_cup_46, side: non_drive, od: {value: 46.030 mm, by: two, repeats: 3}}
expect: {frame: proceed, drive: press_as_is, non_drive: press_as_is, rules: {polymer-cup.too-loose: fails},
         by_hand: "46.032 - 45.972 = 0.060 mm tight"}
"""


@pytest.fixture
def valid() -> str:
    """Return the text of a case without a flaw."""
    return VALID


@pytest.fixture
def load(tmp_path: Path) -> Callable[[str], LoadedCase]:
    """Return a function that loads a case from its text."""

    def loaded(text: str) -> LoadedCase:
        path = tmp_path / "case.yaml"
        path.write_text(text, encoding="utf-8")
        return load_case(path)

    return loaded

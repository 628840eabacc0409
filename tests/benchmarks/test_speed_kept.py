"""The short form of the speed figures: ratios no busy machine moves as far as these bounds."""

import json
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
BOUNDS = {
    "rule stage with every leaf marked / general engine, cases/s": (0.6, None),
    "480 rules / 120 rules, per case": (None, 3.0),
    "rule files: checked book with places / bare YAML data": (None, 5.0),
    "all facts of a case / drawing as many normals": (None, 120.0),
}


def test_no_ratio_is_far_from_its_bound(tmp_path: Path) -> None:
    out = tmp_path / "speed.json"
    command = [sys.executable, str(HERE / "speed.py"), "--short", "--json", str(out)]
    subprocess.run(command, check=True, capture_output=True)
    found = json.loads(out.read_text(encoding="utf-8"))["ratios"]
    for name, (least, most) in BOUNDS.items():
        if name in found:
            ratio = found[name]["ratio"]
            assert least is None or ratio >= least, (name, found[name])
            assert most is None or ratio <= most, (name, found[name])


def test_the_figures_of_the_last_release_are_kept() -> None:
    kept = json.loads((HERE / "speed.json").read_text(encoding="utf-8"))["ratios"]
    assert set(BOUNDS) <= set(kept)
    assert all(each["ours"] > 0 and each["other"] > 0 for each in kept.values())

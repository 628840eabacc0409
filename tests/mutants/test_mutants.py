"""A few changes to the code are tried for real; the whole sample is drawn by `python tests/mutants`."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from mutants.survivors import PACKAGE, Mutant, listed

HERE = Path(__file__).resolve().parent
RINGS, STRAIN = "mechanics/rings.py", "mechanics/strain.py"
NOTICED = [
    (RINGS, "outside_cross_compliance",
     "return 2 * ring.inner**2 * ring.outer / (ring.modulus * ring.square_difference)",
     "return 2 * ring.inner**2 / ring.outer / (ring.modulus * ring.square_difference)"),
    (RINGS, "Ring.square_difference", "return self.outer**2 - self.inner**2", "return self.outer**2 + self.inner**2"),
    (RINGS, "stack_pressures", "outermost_stiffening: Amount = 1.0,", "outermost_stiffening: Amount = 2.0,"),
    (STRAIN, "", "EDGE_BENDING = 0.93", "EDGE_BENDING = 1.93"),
]  # fmt: skip
# A difference taken away instead of its opposite being added: the same number, to the last bit.
ALIKE = (
    RINGS, "stack_pressures",
    "interference / 2 + (_outside_expansion(inner) - _bore_expansion(outer)) * outer.inner * temperature_change",
    "interference / 2 - (_bore_expansion(outer) - _outside_expansion(inner)) * outer.inner * temperature_change",
)  # fmt: skip


def _kept(path: Path, *changes: tuple[str, str, str, str]) -> Path:
    keys = ("module", "in", "was", "now", "why")
    path.write_text(yaml.safe_dump([dict(zip(keys, [*each, "for this test"], strict=True)) for each in changes]))
    return path


def test_what_changes_an_answer_is_noticed_and_what_changes_none_is_not(tmp_path: Path) -> None:
    changes = _kept(tmp_path / "changes.yaml", *NOTICED, ALIKE)
    tests = [str(HERE.parent / "mechanics" / f"test_{name}.py") for name in ("rings", "strain")]
    done = subprocess.run([sys.executable, str(HERE), "--package", "mechanics", "--listed", str(changes), "--scratch",
                           str(tmp_path), "--tests", *tests], cwd=HERE.parents[1], text=True, stdout=subprocess.PIPE,
                          check=True)  # fmt: skip
    ended = [line.split()[2:4] for line in done.stdout.splitlines() if " s  " in line]
    assert ended == [["failed", str(each)] for each in _places(changes)[:-1]] + [["passed", _places(changes)[-1]]]
    assert "killed: 4 of 5, 80.0% (exact 95 % interval 28.4% to 99.5%)" in done.stdout
    printed = yaml.safe_load(done.stdout[done.stdout.index("- module:") : done.stdout.index("killed:")])
    assert [(each["in"], each["was"], each["now"]) for each in printed] == [ALIKE[1:]]


def _places(path: Path) -> list[str]:
    return [f"{each.module}:{each.line}" for each in listed(path)]


def test_every_kept_survivor_still_has_its_place_and_a_reason() -> None:
    for mutant, why in listed().items():
        assert mutant.after != mutant.before
        assert len(why) > 20, mutant
        ast.parse(mutant.source())


def test_a_kept_survivor_whose_line_is_gone_is_refused(tmp_path: Path) -> None:
    module, place, _, now = ALIKE
    with pytest.raises(ValueError, match="no line `interference = 1` in `stack_pressures`"):
        listed(_kept(tmp_path / "gone.yaml", (module, place, "interference = 1", now)))


def test_the_same_seed_draws_the_same_changes_and_each_is_one_line_of_code() -> None:
    pytest.importorskip("cosmic_ray")
    from mutants.changes import drawn

    made, places = drawn("mechanics", 1, 30)
    assert len(set(made)) == 30 < places
    assert made == drawn("mechanics", 1, 30)[0]
    assert [each for each in made if _lines(each) != [each.line]] == []


def _lines(mutant: Mutant) -> list[int]:
    before = (PACKAGE / mutant.module).read_text("utf-8").splitlines()
    after = mutant.source().splitlines()
    return [number for number, (was, now) in enumerate(zip(before, after, strict=True), 1) if was != now]

"""Changes the code on purpose, one place at a time, and looks whether a test notices (extra `mutants`).

    python tests/mutants --package deciding --sample 150 --seed 1     as many changes, drawn at random
    python tests/mutants --package deciding --listed                  the survivors kept in survivors.yaml, again
    python tests/mutants --package mechanics --listed some.yaml --tests tests/mechanics/test_rings.py

Which tests reach which functions is measured once, which takes a quarter of an hour, and kept in the folder given by
`--scratch`; a run that was stopped goes on where it was. Survivors are printed as entries for survivors.yaml.
"""

import argparse
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS.parent))
sys.path.insert(0, str(TESTS))


def main(arguments: Sequence[str]) -> int:
    """Do what the arguments say; return 0 unless the tests could not be collected."""
    from mutants.reach import FOLDERS
    from mutants.served import serve
    from mutants.trying import Trying

    told = _parser().parse_args(arguments)
    told.scratch.mkdir(parents=True, exist_ok=True)
    return serve(told.tests or [str(TESTS / folder) for folder in FOLDERS], Trying(told).work)


def _parser() -> argparse.ArgumentParser:
    from mutants.survivors import KEPT

    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--package", required=True, choices=["deciding", "metrology", "mechanics"])
    parser.add_argument("--sample", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--listed", type=Path, nargs="?", const=KEPT, help="changes of a file, in place of a sample")
    parser.add_argument("--tests", nargs="*", help="files of tests, in place of those that reach the changed function")
    parser.add_argument("--most", type=float, default=60.0, help="seconds of tests tried on a change, quickest first")
    parser.add_argument("--scratch", type=Path, default=Path(tempfile.gettempdir()) / "borewright-mutants")
    return parser


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""The virtual bench: `python tests/virtual_bench --help`."""

import sys
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS.parent))
sys.path.insert(0, str(TESTS))

from virtual_bench.command import main  # noqa: E402

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

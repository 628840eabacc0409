"""Searches for input that the program stumbles over, led by which of its lines an input reaches (extra `fuzz`).

    python tests/fuzz reader --runs 100000         the one YAML reader
    python tests/fuzz loader --runs 100000         case files
    python tests/fuzz sheet  --runs 100000         bench sheets and scans as CSV
    python tests/fuzz loader --again crash-0123    one input again, without the search

It stops at the first input that ends in anything but a document or flaws, that takes more than a second of processor
time, or with which the process passes 300 MB; that input is left as `crash-...`. What is found on the way stays in the
folder given by `--found`; the kept inputs in `corpus/` are never written to.
"""

import argparse
import sys
import tempfile
from pathlib import Path
from random import Random

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS.parent))
sys.path.insert(0, str(TESTS))

LONGEST = 4096


def main(arguments: list[str]) -> None:
    """Do what the arguments say; the search itself ends the process."""
    told = _parser().parse_args(arguments)
    import atheris

    with atheris.instrument_imports(include=["recommender"]):
        from fuzz.targets import CORPUS, TARGETS, kept
        from fuzz.watch import Watch
    from fuzz.mutate import changed

    scratch = Path(tempfile.mkdtemp(prefix="fuzz-", dir=told.scratch))
    watch = Watch(told.target, TARGETS[told.target], scratch / "input", told.figures)
    if told.again:
        watch.one(told.again.read_bytes())
        sys.stdout.write(f"{watch.figures}\n")
        return
    pool = kept(told.target)

    def mutated(content: bytes, longest: int, seed: int) -> bytes:
        random = Random(seed)
        if random.random() < 0.3:  # what was found is mostly broken; a few inputs start from whole ones again
            content = random.choice(pool)
        made = changed(content, pool, random) if random.random() < 0.7 else atheris.Mutate(content, longest)
        return bytes(made[:longest])

    def one(content: bytes) -> None:
        watch.one(content)
        if watch.figures.inputs >= told.runs:
            watch.tell()

    found = told.found or scratch / "found"
    found.mkdir(parents=True, exist_ok=True)
    limits = [f"-runs={told.runs}", f"-max_len={LONGEST}", "-timeout=60", "-rss_limit_mb=2000", f"-seed={told.seed}"]
    options = [*limits, "-print_final_stats=1", "-verbosity=1", f"-artifact_prefix={told.crashes}/"]
    atheris.Setup([sys.argv[0], *options, str(found), str(CORPUS / told.target)], one, custom_mutator=mutated)
    atheris.Fuzz()


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("target", choices=["reader", "loader", "sheet"])
    parser.add_argument("--runs", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--found", type=Path, help="folder for inputs that reach something new")
    parser.add_argument("--figures", type=Path, help="file the figures are written to")
    parser.add_argument("--crashes", type=Path, default=Path("."), help="folder for an input that fails")
    parser.add_argument("--scratch", type=Path, help="folder for the file each input is written to")
    parser.add_argument("--again", type=Path, help="one input to try again")
    return parser


if __name__ == "__main__":
    main(sys.argv[1:])

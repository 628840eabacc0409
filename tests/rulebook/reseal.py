"""Rewrites the fingerprints in recommender/rulebook/seals.py, and rules/schemas/, from the shipped rules.

For maintainers who changed a shipped rule on purpose: `python tests/rulebook/reseal.py`, then read the difference. The
list of sealed ids is kept by hand and not touched.
"""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from recommender.ground.flaw import Flawed  # noqa: E402
from recommender.rulebook.assemble import assemble  # noqa: E402
from recommender.rulebook.folders import read_folder, shipped_folder  # noqa: E402
from recommender.rulebook.schema import schemas  # noqa: E402
from recommender.rulebook.sealing import seals  # noqa: E402
from recommender.rulebook.seals import SEALED_IDS  # noqa: E402

SEALS = ROOT / "recommender" / "rulebook" / "seals.py"
MARK = "# Rewritten by tests/rulebook/reseal.py from here on.\n"


def resealed(text: str, rules: Path) -> str:
    """Return the text of seals.py with the fingerprints of the rules in a folder."""
    book = assemble(read_folder(rules), SEALED_IDS)
    found = seals(book, SEALED_IDS)
    lines = [f'    "{name}": "{found[name]}",' for name in SEALED_IDS if name in found]
    head = text[: text.index(MARK) + len(MARK)]
    sealed = "\n".join(["SEALED: Mapping[str, str] = MappingProxyType({", *lines, "})  # fmt: skip"])
    return f'{head}{sealed}\nSHIPPED = "{book.fingerprint}"\n'


def main() -> int:
    """Rewrite seals.py; return 1, saying why, when the rules have flaws."""
    try:
        text = resealed(SEALS.read_text(encoding="utf-8"), shipped_folder())
    except Flawed as refused:
        sys.stderr.write(f"{refused}\n")
        return 1
    SEALS.write_text(text, encoding="utf-8")
    schemas_folder = shipped_folder() / "schemas"
    schemas_folder.mkdir(exist_ok=True)
    for name, schema in schemas(assemble(read_folder(shipped_folder()), SEALED_IDS)).items():
        (schemas_folder / name).write_text(schema, encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())

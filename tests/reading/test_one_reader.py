"""Only one module knows the YAML parser."""

import re
from pathlib import Path

import recommender

PACKAGE = Path(recommender.__file__).parent
CALL = re.compile(r"^\s*(?:import|from)\s+(?:yaml|ruamel)\b|\byaml\.(?!yaml)\w+\(", re.MULTILINE)


def test_nothing_else_calls_the_parser() -> None:
    users = {
        path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py") if CALL.search(path.read_text("utf-8"))
    }
    assert users == {"reading/yaml_reader.py"}

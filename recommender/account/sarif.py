"""Flaws in the open SARIF form (OASIS, version 2.1.0), which editors and code hosts show in place."""

import json
from collections.abc import Callable, Iterable
from typing import Any

from recommender.ground.flaw import Flaw, Level

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
LEVELS: dict[Level, str] = {"error": "error", "warning": "warning", "note": "note"}


def sarif(flaws: Iterable[Flaw], page_of: Callable[[str], str | None], version: str) -> str:
    """Return the flaws as SARIF text: one run, one rule for each check that spoke, one result for each flaw."""
    found = tuple(flaws)
    checks = sorted({each.check for each in found})
    driver = {"name": "borewright", "version": version, "rules": [_rule(check, page_of(check)) for check in checks]}
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(each, checks.index(each.check)) for each in found],
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2)


def _rule(check: str, page: str | None) -> dict[str, Any]:
    told = page or check
    return {"id": check, "shortDescription": {"text": told.partition("\n")[0]}, "fullDescription": {"text": told}}


def _result(flaw: Flaw, index: int) -> dict[str, Any]:
    place = flaw.place
    region = {
        "startLine": place.line, "startColumn": place.column, "endLine": place.end_line, "endColumn": place.end_column,
    }  # fmt: skip
    location = {"artifactLocation": {"uri": place.file.replace("\\", "/").replace(" ", "%20")}, "region": region}
    return {
        "ruleId": flaw.check,
        "ruleIndex": index,
        "level": LEVELS[flaw.level],
        "message": {"text": f"{flaw.message}. {flaw.advice}"},
        "locations": [{"physicalLocation": location}],
    }

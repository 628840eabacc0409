"""What closes the page: cautions, what is too close to call, house rules, versions and fingerprints."""

import hashlib
from collections.abc import Mapping
from typing import Any, NamedTuple

from recommender.account.limit_words import bare, limits_of
from recommender.account.numbers import with_interval
from recommender.account.page_matter import Matter, Row, open_findings, row, rows, said
from recommender.account.page_told import Told
from recommender.account.words import SIDES, capital
from recommender.deciding.answer import to_json


class Close(NamedTuple):
    """A number too close to a limit to be called: what it is, where, what was found, which limit and its meaning."""

    name: Told
    side: str
    found: Told
    limit: Told
    meanings: list[Told]


def cautions(matter: Matter) -> list[Told]:
    """Return the cautions in the words of the book; what nobody can call stands in a table of its own."""
    left_open = {finding.rule for _, finding in open_findings(matter.advice)}
    return [said(each, "cautions") for each in matter.advice.cautions if each.id not in left_open]


def close_calls(matter: Matter) -> list[Close]:
    """Return every number that lies too close to a limit to be called."""
    return [
        Close(Told(check.name, f"fact:{check.fact}"), capital(SIDES.get(side, "frame")),
              Told(with_interval(check.found), check.node),
              Told(bare(check.wanted, check, matter.advice.trace), check.node),
              [Told(each.meaning, each.id) for each in limits_of(check, matter.advice.trace)])
        for side, finding in open_findings(matter.advice) for check in finding.checks if check.found.unknown is None
    ]  # fmt: skip


def not_known(matter: Matter) -> list[Told]:
    """Return what is not known and counts as a caution, with the reason."""
    checks = [check for _, finding in open_findings(matter.advice) for check in finding.checks]
    told = {f"{each.name}: {each.found.unknown}": each.node for each in checks if each.found.unknown is not None}
    return [Told(text, node) for text, node in told.items()]


def left_to_others(matter: Matter) -> list[Told]:
    """Return what is left to others, in the words of the advice."""
    return [said(each, "deferrals") for each in matter.advice.deferrals]


def house_rows(matter: Matter) -> list[Mapping[str, Any]]:
    """Return every change of the shop's own rules in force."""
    return list(matter.advice.house_changes)


def versions(matter: Matter) -> list[Row]:
    """Return what judged this case, and fingerprints that tell whether anything was altered since."""
    advice = matter.advice
    case = hashlib.sha256(matter.loaded.document.text.encode()).hexdigest()
    whole = hashlib.sha256(to_json(advice).encode("utf-8", "backslashreplace")).hexdigest()
    return rows([
        row("Judged by", Told(advice.engine, "advice:engine")),
        row("Rule book", Told(advice.rulebook.fingerprint, "advice:rulebook")),
        row("Shipped rules", "edited here" if advice.rulebook.edited else "as shipped"),
        row("Case file", Told(case, "fingerprint:case")),
        row("This advice", Told(whole, "fingerprint:advice")),
        row("Format", Told(advice.format, "advice:format")),
    ])  # fmt: skip

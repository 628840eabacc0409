"""One case judged into one line of JSON: what was decided and why, or what kept it from being judged."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from recommender.advice import advise
from recommender.bench.load import FlawedCase
from recommender.bench.peek import peek_damage
from recommender.deciding.answer import Advice, Finding, MakeShown, SideShown
from recommender.ground.flaw import Flaw, Flawed
from recommender.reading.document import Document
from recommender.records.case_text import load_case_text
from recommender.records.second_round import damage_kept
from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_items import Item

FORMAT = "borewright/sweep/1"
START = f'{{"format":"{FORMAT}",'


def line_of(item: Item, books: DatedBooks) -> str:
    """Return the line of a case, without line end. Whatever is wrong with it stands in the line; nothing is raised."""
    head = {"format": FORMAT, **head_of(item), "rules": books.stamp}
    return json.dumps({**head, **_answer(item, books)}, ensure_ascii=True, allow_nan=False, separators=(",", ":"))


def head_of(item: Item) -> dict[str, str]:
    """Return what tells one case of a sweep from every other: its source and a short hash of its text."""
    return {"source": item.source, "text": hashlib.sha256(item.text.encode("utf-8", "replace")).hexdigest()[:12]}


def _answer(item: Item, books: DatedBooks) -> dict[str, Any]:
    try:
        if item.flaws:
            raise FlawedCase(item.flaws, peek_damage(Document(item.file, item.text, {}, {})))
        loaded = load_case_text(item.text, item.file)
        advice = advise(loaded, books.on(loaded.case.received))
        path = Path(item.file)
        damage_kept(path, advice, path.parent)
        return _judged(advice)
    except FlawedCase as refused:
        return _refused(refused.flaws, refused.signs, item)
    except Flawed as refused:
        return _refused(refused.flaws, peek_damage(Document(item.file, item.text, {}, {})), item)
    except Exception as error:  # the other cases still want their answer
        signs = peek_damage(Document(item.file, item.text, {}, {}))
        return {"fault": f"{type(error).__name__}: {error}", "signs": list(signs)}


def _refused(flaws: Iterable[Flaw], signs: tuple[str, ...], item: Item) -> dict[str, Any]:
    told = [{"check": each.check, "place": _place(each, item), "level": each.level, "message": each.message,
             "advice": each.advice} for each in flaws]  # fmt: skip
    return {"flaws": told, "signs": list(signs)}


def _place(flaw: Flaw, item: Item) -> str:
    """Return where a flaw is in the file, counted from where the text of the case starts."""
    place = flaw.place
    return str(place if item.flaws else place._replace(line=place.line + item.line - 1))


def _judged(advice: Advice) -> dict[str, Any]:
    return {
        "case": advice.case.id,
        "frame": {"verdict": advice.frame.verdict, "reasons": list(advice.frame.reasons)},
        "sides": {name: _side(side) for name, side in advice.sides.items()},
        "questions": [{"fact": each.fact, "name": each.name, "side": each.side, "do": each.do}
                      for each in advice.questions],
        "cautions": [each.id for each in advice.cautions],
        "notices": [each.id for each in advice.notices],
        "rulebook": advice.rulebook.fingerprint,
        "engine": advice.engine,
    }  # fmt: skip


def _side(side: SideShown) -> dict[str, Any]:
    return {
        "verdict": side.verdict, "remedy": side.remedy, "reason": side.reason,
        "stopped_by": _rules(side.stopped_by), "make": None if side.make is None else _make(side.make),
    }  # fmt: skip


def _rules(findings: Iterable[Finding]) -> Mapping[str, str]:
    return {each.rule: each.title for each in findings}


def _make(make: MakeShown) -> dict[str, Any]:
    return {"part": make.part, "condition": make.condition, "od_mm": make.od_mm, "bore_mm": make.bore_mm,
            "before_work": list(make.before_work), "released": make.released}  # fmt: skip

"""A second round of a frame that was refused for damage must not leave the damage out."""

from pathlib import Path

from recommender.bench.load import FlawedCase
from recommender.bench.peek import peek_in
from recommender.deciding.answer import Advice
from recommender.ground.flaw import Flaw
from recommender.ground.place import whole_file
from recommender.records.store import earlier_round


def damage_kept(path: Path, advice: Advice, *folders: Path) -> None:
    """Raise FlawedCase when a case follows a record refused for damage, kept in one of the folders, and names none.

    `advice` is that of the case at `path`. Raises Flawed when the earlier record was changed.
    """
    if advice.case.follows is None or advice.frame.damage:
        return
    for folder in folders:
        record = earlier_round(advice.case.follows, folder)
        if record is not None and record.content.advice["frame"]["damage"]:
            message = f"this round follows {record.id}, which was refused for damage, and names no sign of it"
            advised = (
                "Enter the sign again. A frame that its maker repaired or released is a case of its own, without "
                "`follows`, with what he said of it."
            )
            raise FlawedCase(
                [Flaw("case.damage_left_out", whole_file(str(path)), message, advised)],
                peek_in(record.content.case_text),
            )

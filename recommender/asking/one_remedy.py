"""What becomes of one remedy on one side, by the pipeline itself but without the rest of the frame."""

from recommender.bench.load import LoadedCase
from recommender.deciding.decide import decide
from recommender.deciding.options import RemedyResult
from recommender.deriving.derive import derive
from recommender.deriving.derived import Only, SideName
from recommender.rulebook.book import Rulebook


def one_remedy(
    loaded: LoadedCase, side: SideName, remedy: str, book: Rulebook, part: str | None = None
) -> RemedyResult:
    """Return what becomes of a remedy on a side, with one part or with all that could be used for it.

    Raises Flawed as deriving does, StopIteration for no such remedy.
    """
    decision = decide(derive(loaded, book, Only(side, remedy, part)), book)
    return next(each for each in decision.sides[side].remedies if each.remedy.id == remedy)

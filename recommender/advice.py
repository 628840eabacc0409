"""The pipeline: from a case and a rule book to the advice."""

from recommender.bench.load import LoadedCase
from recommender.deciding.answer import Advice, CaseShown
from recommender.deciding.assemble import assemble
from recommender.deciding.decide import decide
from recommender.deriving.derive import derive
from recommender.rulebook.book import Rulebook


def advise(loaded: LoadedCase, book: Rulebook) -> Advice:
    """Return the advice on a case.

    Raises Flawed when the case uses words the book does not know. The same case and the same book give the same
    advice, to the last bit.
    """
    case = loaded.case
    derived = derive(loaded, book)
    shown = CaseShown(case.case, case.title, case.received.isoformat(), case.follows)
    return assemble(decide(derived, book), derived, book, shown, frozenset(case.history.consent))

"""A case read from text that lies in no file of its own: in a record, or on a line among many."""

from recommender.bench.load import FlawedCase, LoadedCase, case_in
from recommender.bench.peek import peek_damage
from recommender.ground.flaw import Flawed
from recommender.reading.document import Document
from recommender.reading.yaml_reader import read_text


def load_case_text(text: str, shown: str) -> LoadedCase:
    """Return the case in a text, shown under a name in places.

    Raises FlawedCase with every flaw found and the signs of damage the text names, as reading a file does.
    """
    try:
        document = read_text(text, shown)
    except Flawed as refused:
        raise FlawedCase(refused.flaws, peek_damage(Document(shown, text, {}, {}))) from None
    return case_in(document)

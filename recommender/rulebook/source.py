"""Sources from files to sources of the book."""

from recommender.rulebook.models.common import SourceModel
from recommender.rulebook.stock import Source


def source_of(model: SourceModel) -> Source:
    """Return the source as the book keeps it."""
    return Source(model.kind, model.text, model.title, model.edition, model.page)

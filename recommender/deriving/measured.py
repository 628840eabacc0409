"""The log of what the bench wrote down, so that every fact can be walked back to its line in the case."""

from recommender.bench.readings import Path
from recommender.deriving.derived import Measured
from recommender.deriving.spreads import Scalar, Spread
from recommender.reading.yaml_reader import Document


class MeasuredLog:
    """Everything measured or seen that a fact was made from, by its path in the case."""

    def __init__(self, document: Document) -> None:
        """Start empty; `document` knows the place of every path."""
        self._document = document
        self.kept: dict[str, Measured] = {}

    def keep(self, path: Path, what: str, shown: str, spread: str = "", *, assumed: bool = False) -> str:
        """Note one measured thing and return the name by which facts refer to it."""
        name = "case:" + ".".join(str(step) for step in path)
        place = self._document.place(path)
        self.kept[name] = Measured(name, what, shown, spread, assumed, place)
        return name

    def scalar(self, path: Path, what: str, value: Scalar, unit: str, spread: Spread) -> str:
        """Note a measured scalar with its spread in words."""
        words = spread.words("K" if unit == "degC" else unit)
        return self.keep(path, what, f"{value.value:g} {unit}", words, assumed=spread.assumed)

"""What one input may cost, and the figures of a run."""

import json
import resource
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from time import thread_time, time

SLOWEST = 1.0
MOST_MEMORY = 300


class TooMuch(AssertionError):
    """Raised when an input took longer or more memory than one may."""


@dataclass
class Figures:
    """How many inputs were read, how many of them were taken for good, and the most that one took."""

    target: str
    inputs: int = 0
    taken: int = 0
    slowest: float = 0.0
    slowest_bytes: int = 0
    megabytes: float = 0.0
    started: float = 0.0
    seconds: float = 0.0


def megabytes() -> float:
    """Return the most memory this process has ever held."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


class Watch:
    """Runs a target over inputs and fails at the first that is not answered in words, in time and in memory."""

    def __init__(self, name: str, target: Callable[[Path], bool], path: Path, figures: Path | None = None) -> None:
        """Inputs are written to `path` and read from it; figures are written to a file every thousand inputs."""
        self.target, self.path, self.to = target, path, figures
        self.figures = Figures(name, started=time())

    def one(self, content: bytes) -> None:
        """Read one input; raises TooMuch, or whatever the target lets out that is no flaw."""
        self.path.write_bytes(content)
        start = thread_time()
        self.figures.taken += self.target(self.path)
        took = thread_time() - start
        told = self.figures
        told.inputs, told.megabytes = told.inputs + 1, megabytes()
        if took > told.slowest:
            told.slowest, told.slowest_bytes = took, len(content)
        if told.inputs % 1_000 == 0:
            self.tell()
        if took > SLOWEST:
            raise TooMuch(f"{took:.2f} s of processor time for {len(content)} bytes")
        if told.megabytes > MOST_MEMORY:
            raise TooMuch(f"{told.megabytes:.0f} MB")

    def tell(self) -> None:
        """Write the figures, if they are to be kept."""
        self.figures.seconds = time() - self.figures.started
        if self.to is not None:
            self.to.write_text(json.dumps(asdict(self.figures), indent=1) + "\n", encoding="utf-8")

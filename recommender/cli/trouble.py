"""Tells flaws on the error stream, with the stop-riding notice where a flawed case still shows a stopping sign."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from recommender.account.stop_riding import FALLBACK, notice_for_signs
from recommender.account.terminal import print_lines
from recommender.cli.guard import fault, say
from recommender.ground.flaw import Flawed

T = TypeVar("T")


def print_flaws(found: Flawed) -> None:
    """Print every flaw, one below the other, and how many there are."""
    for each in found.flaws:
        say(str(each))
    errors = sum(each.level == "error" for each in found.flaws)
    say(f"{errors} flaw{'s' if errors != 1 else ''} found; nothing was decided.")


def print_notice(path: Path, text: str = FALLBACK, out: bool = True, signs: tuple[str, ...] = ()) -> None:
    """Print the stop-riding notice when a case file that was not judged shows a stopping sign.

    On the error stream it stands with the flaws; on the output (`out`) it stays with whoever keeps only that.
    `signs` are known already; otherwise the file is looked through for them.
    """
    from recommender.bench.peek import peek_damage

    lines = notice_for_signs(signs or peek_damage(path), str(path), text)
    if out:
        print_lines(lines)
    print_lines(lines, err=True)


def or_flaws(do: Callable[[], T], path: Path, text: str = FALLBACK, out: bool = True) -> T | None:
    """Return what `do` returns for the case at `path`, or None after telling what kept it from being judged."""
    try:
        return do()
    except Flawed as found:
        print_notice(path, text, out, getattr(found, "signs", ()))
        print_flaws(found)
    except OSError:
        raise
    except Exception as error:  # the other cases still want their answer, and a crack its notice
        print_notice(path, text, out)
        say(f"{path}: {fault(error)}")
    return None

"""Runs the command line so that whatever goes wrong ends in words and an exit code."""

import errno
import os
import sys
from collections.abc import Callable
from typing import TextIO

from recommender.ground.garbage import collect_seldom

EXIT_CANNOT_JUDGE = 2
EXIT_INTERRUPTED = 130


def guarded(run: Callable[[], object]) -> int:
    """Run the command line and return its exit code.

    Flaws and faults are told on the error stream. A reader that closed the pipe early has what it wanted; an
    interrupted run says nothing.
    """
    if sys.stderr is None:  # closed by whoever started this; files opened later must not take its place
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    if sys.stdout is None:
        say("there is nowhere to write the answer to: the output is closed; nothing was decided.")
        return EXIT_CANNOT_JUDGE
    collect_seldom()
    for stream in (sys.stdout, sys.stderr):
        _never_stumble(stream)
    code = _run(run)
    try:
        sys.stdout.flush()
    except OSError as error:
        return _output_failed(error)
    return code


def _run(run: Callable[[], object]) -> int:
    try:
        run()
    except SystemExit as left:
        if isinstance(left.__context__, BrokenPipeError):  # the command line library leaves with 1 for this
            return 0
        return left.code if isinstance(left.code, int) else EXIT_CANNOT_JUDGE if left.code else 0
    except KeyboardInterrupt:
        return EXIT_INTERRUPTED
    except OSError as error:
        return _output_failed(error)
    except Exception as error:  # a fault of our own is told like any other
        from recommender.ground.flaw import Flawed

        say(str(error) if isinstance(error, Flawed) else fault(error))
        return EXIT_CANNOT_JUDGE
    return 0


def fault(error: Exception) -> str:
    """Return what to say of an error nobody foresaw: what it is, and that nothing was decided."""
    said = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
    return f"fault in the tool itself ({said}); nothing was decided. Keep the file and report it with this line."


def say(text: str) -> None:
    """Print a text to the error stream, as far as that can still be written to.

    What stands in a file is quoted in flaws; its control characters must not steer the terminal.
    """
    shown = "".join(each if each.isprintable() or each == "\n" else " " for each in text)
    try:
        print(shown, file=sys.stderr)  # noqa: T201
    except OSError:
        _close(sys.stderr)


def _never_stumble(stream: TextIO) -> None:
    """Characters the terminal cannot show are spelt out instead of ending the run."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors="backslashreplace")


def _output_failed(error: OSError) -> int:
    if error.errno is None:
        say(fault(error))
        return EXIT_CANNOT_JUDGE
    if error.filename is not None:
        told = f"{os.fsdecode(error.filename)}:1:1: error: this file or folder cannot be used ({error.strerror})"
        say(f"{told}\n      Check its name and whether you may open it; nothing was decided.")
        return EXIT_CANNOT_JUDGE
    _close(sys.stdout)
    if error.errno == errno.EPIPE:
        return 0
    say(f"the output could not be written ({error.strerror or error}); free some space or choose another place.")
    return EXIT_CANNOT_JUDGE


def _close(stream: TextIO) -> None:
    """Point a stream nobody can write to any more at nothing, so that leaving the program stays quiet."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except (OSError, ValueError):
        return

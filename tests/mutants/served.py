"""Collects tests once; then every run of some of them is a branch of that process, with or without changed code."""

import os
import resource
import signal
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager, suppress
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from mutants.graft import NotPutIn
from mutants.inside import Inside

MORE_MEMORY = 3 << 30
# A branch that waits without computing is ended by the clock; other work on the machine must not bring that about.
SECONDS_OF_WAITING, TIMES_BY_THE_CLOCK = 60, 8
NOT_PUT_IN = 3


class Outcome(NamedTuple):
    """How a run of tests ended, the test it ended at, and seconds of processor time.

    `passed`, `failed`, `out of time` (computing), `stopped` (waiting), or `not put in` (the change could not be made).
    """

    how: str
    test: str
    seconds: float


class Served:
    """The collected tests by file."""

    def __init__(self, session: pytest.Session) -> None:
        self.files: dict[str, list[pytest.Item]] = {}
        for item in session.items:
            self.files.setdefault(item.nodeid.split("::")[0], []).append(item)

    def run(self, files: Mapping[str, float], within: AbstractContextManager[Any]) -> Outcome:
        """Run files of tests in a branch until one fails, each as long as told in seconds, `within` something."""
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(reading)
            _in_branch([(self.files[file], seconds) for file, seconds in files.items()], within, writing)
        os.close(writing)
        how, seconds = _waited(child, SECONDS_OF_WAITING + TIMES_BY_THE_CLOCK * sum(files.values()))
        with os.fdopen(reading, encoding="utf-8") as told:
            tests = told.read().splitlines()
        return Outcome(how, tests[-1] if tests and how != "passed" else "", round(seconds, 2))


def serve(paths: Sequence[str], work: Callable[[Served], None]) -> int:
    """Collect the tests under `paths`, do `work` with them in place of running them; return pytest's exit code."""
    from hypothesis import Phase, settings

    # The same examples each time, none looked up in a folder, and no search for a simpler one.
    settings.register_profile("mutants", derandomize=True, database=None, deadline=None, print_blob=False,
                              phases=(Phase.explicit, Phase.generate))  # fmt: skip
    settings.load_profile("mutants")
    os.environ |= {"OPENBLAS_NUM_THREADS": "1", "MPLBACKEND": "Agg"}
    options = ["-q", "-q", "-s", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header", "--no-summary"]
    return int(pytest.main([*options, *paths], plugins=[Inside(), _InPlaceOfRunning(work)]))


class _InPlaceOfRunning:
    def __init__(self, work: Callable[[Served], None]) -> None:
        self.work = work

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.work(Served(session))
        return True


class _Failures:
    seen = False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.seen = self.seen or report.failed


def _in_branch(files: list[tuple[list[pytest.Item], float]], within: AbstractContextManager[Any], writing: int) -> None:
    code = 1
    try:
        os.setsid()
        nowhere = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(nowhere, stream)
        most = MORE_MEMORY + int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
        resource.setrlimit(resource.RLIMIT_AS, (most, most))
        signal.signal(signal.SIGPROF, signal.SIG_DFL)
        os.write(writing, b"while the changed code was loaded\n")
        with within:
            code = _first_failure(files, writing)
    except NotPutIn as error:
        os.write(writing, f"{error}\n".encode())
        code = NOT_PUT_IN
    finally:
        os._exit(code)


def _first_failure(files: list[tuple[list[pytest.Item], float]], writing: int) -> int:
    failures, items = _Failures(), [item for items, _ in files for item in items]
    items[0].config.pluginmanager.register(failures)
    following = dict(zip(items, [*items[1:], None], strict=True))
    for each, seconds in files:
        signal.setitimer(signal.ITIMER_PROF, seconds)
        for item in each:
            os.write(writing, f"{item.nodeid}\n".encode())
            item.ihook.pytest_runtest_protocol(item=item, nextitem=following[item])
            if failures.seen:
                return 1
    return 0


def _waited(child: int, longest: float) -> tuple[str, float]:
    until = time.monotonic() + longest
    while time.monotonic() < until:
        ended, status, used = os.wait4(child, os.WNOHANG)
        if ended:
            ways = {0: "passed", NOT_PUT_IN: "not put in", -signal.SIGPROF: "out of time"}
            return ways.get(os.waitstatus_to_exitcode(status), "failed"), used.ru_utime + used.ru_stime
        time.sleep(0.01)
    with suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    used = os.wait4(child, 0)[2]
    return "stopped", used.ru_utime + used.ru_stime

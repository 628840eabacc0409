"""Runs `python -m recommender ...` of a test inside the process of the test, where the changed code is."""

import io
import os
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout, suppress
from typing import Any
from unittest.mock import patch


class Inside:
    """A pytest plugin; any other command is run as it was."""

    def pytest_sessionstart(self) -> None:
        self.others = subprocess.run
        subprocess.run = self.run

    def pytest_sessionfinish(self) -> None:
        subprocess.run = self.others

    def run(self, command: Any, *rest: Any, **options: Any) -> Any:
        if not isinstance(command, list) or command[1:3] != ["-m", "recommender"]:
            return self.others(command, *rest, **options)
        told, flaws, before = io.StringIO(), io.StringIO(), os.getcwd()
        os.chdir(options.get("cwd") or before)
        try:
            with (redirect_stdout(told), redirect_stderr(flaws), patch.dict(os.environ, options.get("env") or {}),
                  patch.object(sys, "argv", ["borewright", *command[3:]])):  # fmt: skip
                code = _code()
        finally:
            os.chdir(before)
        done = subprocess.CompletedProcess(command, code, told.getvalue(), flaws.getvalue())
        if options.get("check"):
            done.check_returncode()
        return done


def _code() -> int:
    from recommender.cli.app import main

    with suppress(BrokenPipeError):
        try:
            main()
        except SystemExit as ended:
            return ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    return 0

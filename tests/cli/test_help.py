"""Every command's help ends with an example that can be run as it stands, and the shell can complete commands."""

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from recommender.cli.app import COMMANDS, command_of

ROOT = str(Path(__file__).resolve().parents[2])


def commands(group: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    if not hasattr(group, "commands"):
        yield path, group
        return
    for name, each in group.commands.items():
        yield from commands(each, (*path, name))


FOUND = {path: each for name in COMMANDS for path, each in commands(command_of(name), (name,))}


@pytest.mark.parametrize("path", FOUND, ids=" ".join)
def test_every_command_has_an_example_with_options_it_knows(path: tuple[str, ...]) -> None:
    command = FOUND[path]
    examples = re.findall(r"Example: borewright ((?:[^\n]|\n(?!\n))+)", command.help or "")
    assert examples
    known = {option for each in command.params for option in each.opts}
    for each in examples:
        words = shlex.split(each)
        assert tuple(words[: len(path)]) == path
        assert {word for word in words if word.startswith("--")} <= known


def completed(words: str) -> set[str]:
    """Return what bash is offered after some words, by the completion script's own way of asking."""
    env = {**os.environ, "PYTHONPATH": ROOT, "_BOREWRIGHT_COMPLETE": "complete_bash", "COMP_WORDS": words,
           "COMP_CWORD": str(len(words.split()) - 1)}  # fmt: skip
    done = subprocess.run([sys.executable, "-m", "recommender"], env=env, capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_the_shell_completes_commands_and_choices() -> None:
    assert completed("borewright re") == {"report", "replay", "records"}
    assert completed("borewright why x --side ") | completed("borewright why x --side n") >= {"non_drive"}

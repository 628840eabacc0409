"""The command `borewright` and what all its commands share."""

import os
import sys
from functools import partial
from importlib import import_module
from typing import Annotated, Any

# Small matrices on many threads are slower and may round differently from one machine to the next.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import typer
from typer.core import TyperGroup

from recommender.cli.guard import guarded
from recommender.ground.garbage import leave_the_rest

COMMANDS = {
    "advise": ("advise_cases", "What may be done to each side, and what to fit."),
    "why": ("why_case", "Why it was decided so, down to the readings."),
    "plan": ("plan_readings", "Which readings to take, or which one next."),
    "report": ("report_case", "The written account, one page for every reader."),
    "replay": ("replay_records", "Whether kept records still stand."),
    "sweep": ("sweep_cases", "Many cases at once, one line each."),
    "cases": ("app", "Run cases that say what they expect; import bench sheets."),
    "records": ("app", "Look at kept records and say what was done."),
    "rules": ("app", "Look at the rule book, check it, compare it."),
}


class LoadedWhenCalled(TyperGroup):
    """Commands whose modules are imported when one is called: the list of all of them needs only their names."""

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Return the command that is called, from the module of its name."""
        if args and args[0] in COMMANDS:
            self.commands[args[0]] = command_of(args[0])
        return super().resolve_command(ctx, args)


def command_of(name: str) -> Any:
    """Return a command or a group of commands by its name, from its module."""
    found = getattr(import_module(f"recommender.cli.{name}"), COMMANDS[name][0])
    if isinstance(found, typer.Typer):
        return typer.main.get_command(found)
    alone = typer.Typer(add_completion=False, rich_markup_mode=None)
    alone.command(name)(found)
    return typer.main.get_command(alone)


def _only_a_name() -> None:
    """Stand in the list for a command that is not loaded."""


app = typer.Typer(
    name="borewright",
    cls=LoadedWhenCalled,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="From measured bores of a press-fit bottom-bracket shell to a decision for each side, with its reasons.\n\n"
    "Example: borewright advise bench/lane-2041.yaml\n\n"
    "Shell completion: borewright --install-completion, then open a new terminal.",
)
for _name, (_, _short) in COMMANDS.items():
    app.command(_name, short_help=_short)(_only_a_name)


def _version(asked: bool) -> None:
    if asked:
        from recommender import ENGINE

        typer.echo(ENGINE)
        raise typer.Exit


@app.callback()
def _main(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and leave.")
    ] = False,
) -> None:
    del version


def main() -> None:
    """Run the command line; whatever goes wrong ends in words and an exit code, never in a traceback."""
    code = guarded(partial(app, prog_name="borewright"))
    leave_the_rest()
    sys.exit(code)


if __name__ == "__main__":
    main()

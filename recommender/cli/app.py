"""The command `borewright` and what all its commands share."""

import os
import sys
from functools import partial
from typing import Annotated

# Small matrices on many threads are slower and may round differently from one machine to the next.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import typer

from recommender.cli import advise, cases, plan, records, replay, report, rules, sweep, why
from recommender.cli.guard import guarded

app = typer.Typer(
    name="borewright",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="From measured bores of a press-fit bottom-bracket shell to a decision for each side, with its reasons.\n\n"
    "Example: borewright advise bench/lane-2041.yaml\n\n"
    "Shell completion: borewright --install-completion, then open a new terminal.",
)
app.command("advise", short_help="What may be done to each side, and what to fit.")(advise.advise_cases)
app.command("why", short_help="Why it was decided so, down to the readings.")(why.why_case)
app.command("plan", short_help="Which readings to take, or which one next.")(plan.plan_readings)
app.command("report", short_help="The written account, one page for every reader.")(report.report_case)
app.command("replay", short_help="Whether kept records still stand.")(replay.replay_records)
app.command("sweep", short_help="Many cases at once, one line each.")(sweep.sweep_cases)
app.add_typer(cases.app, name="cases")
app.add_typer(records.app, name="records")
app.add_typer(rules.app, name="rules")


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
    sys.exit(guarded(partial(app, prog_name="borewright")))


if __name__ == "__main__":
    main()

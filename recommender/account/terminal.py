"""Prints lines: headings and notices in bold where a terminal shows it, plain text everywhere else."""

from collections.abc import Iterable

import typer

from recommender.account.lines import Line


def print_lines(lines: Iterable[Line], err: bool = False) -> None:
    """Print lines to the output or the error stream; emphasis is left out when the stream is no terminal."""
    for line in lines:
        typer.secho(line.text, bold=line.weight != "plain" or None, err=err)

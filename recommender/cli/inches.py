"""The option that adds inches."""

from typing import Annotated

import typer

Inches = Annotated[bool, typer.Option("--inches", help="Lengths in inches as well, in brackets after the millimetres.")]

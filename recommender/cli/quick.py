"""The option that leaves out what takes long."""

from typing import Annotated

import typer

Quick = Annotated[
    bool, typer.Option("--quick", help="Leave out the nearest changes, for which the case is judged again and again.")
]

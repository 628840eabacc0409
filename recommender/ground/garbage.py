"""How often Python looks for garbage that counting references does not free."""

import gc

COLLECTED_EVERY = 200_000


def collect_seldom() -> None:
    """Look for garbage every 200,000 objects instead of every 700: judging a case leaves hardly any behind."""
    gc.set_threshold(COLLECTED_EVERY)


def leave_the_rest() -> None:
    """Look for no more garbage: what is there at the end goes with the process, without a walk through all of it."""
    gc.freeze()

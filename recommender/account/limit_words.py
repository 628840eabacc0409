"""Limits by what they mean: an id says nothing at a bench."""

from recommender.account.words import lower
from recommender.deciding.answer import CheckShown
from recommender.deciding.trace import LimitUsed, Trace


def limits_of(check: CheckShown, trace: Trace) -> list[LimitUsed]:
    """Return the limits a check was held against, in the order they stand in it."""
    rests = trace.nodes[check.node].rests_on if check.node in trace.nodes else ()
    return [node for each in rests if isinstance(node := trace.nodes.get(each), LimitUsed)]


def limit_meaning(limit: str, trace: Trace) -> str:
    """Return what a limit means inside a sentence; its id where the trace does not hold it."""
    node = trace.nodes.get(f"limit:{limit}")
    return lower(node.meaning) if isinstance(node, LimitUsed) and node.meaning else limit


def in_words(text: str, check: CheckShown, trace: Trace) -> str:
    """Return a text about a check with each limit's id in brackets replaced by its meaning."""
    for each in limits_of(check, trace):
        text = text.replace(f"({each.limit})", f"({limit_meaning(each.limit, trace)})")
    return text


def bare(text: str, check: CheckShown, trace: Trace) -> str:
    """Return a text about a check without the ids of its limits."""
    for each in limits_of(check, trace):
        text = text.replace(f" ({each.limit})", "")
    return text

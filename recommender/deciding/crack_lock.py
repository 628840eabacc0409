"""The second lock on cracks: a crack that was seen stops the work, whatever the rule book says."""

from recommender.deriving.derived import Derived

REASON = "A crack was seen. Nothing is pressed, glued or cut on this frame, whatever the bores measure."


def crack_stops_work(derived: Derived) -> bool:
    """Return whether a crack was seen: by the sign in the case or by the fact, either is enough."""
    fact = derived.frame.get("damage.crack")
    return derived.crack_seen or (fact is not None and fact.word is True)

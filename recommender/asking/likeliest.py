"""The fewest readings that are as likely as not to settle a check."""

from collections.abc import Sequence

from recommender.asking.candidates import Candidate
from recommender.asking.outlook import Outlook, best
from recommender.asking.promise import driver_of, promise
from recommender.asking.rerun import OpenCheck
from recommender.metrology.sheet import Sheet

SHORT, LONGEST = 6, 4
GOOD = 0.5


def likeliest(check: OpenCheck, sheet: Sheet, now: Outlook, possible: Sequence[Candidate]) -> Outlook | None:
    """Return the fewest readings that are as likely as not to settle a check, else those likeliest to.

    None where no reading of the bore bears on it or none can be taken.
    """
    field = driver_of(check)
    if field is None or not possible:
        return None
    ahead, found, share = now, None, 0.0
    for _ in range(LONGEST):
        short = [(promise(check, sheet, each), each) for each in best(field, ahead, possible, SHORT)]
        promised, ahead = min(short, key=lambda pair: (-pair[0].share, round(pair[0].left, 6)))
        if promised.share > share:
            found, share = ahead, promised.share
        if share >= GOOD:
            break
    return found

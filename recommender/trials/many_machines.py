"""Many cases judged on the machines of a cluster: the same lines in the same order as on one, by dask.distributed.

Cases and rules are read by the workers, from storage they share with whoever started the sweep. A piece whose worker
is lost goes to another one; a line is written when its piece is whole, so nothing is lost or doubled.
"""

from collections.abc import Iterable, Iterator
from functools import partial

from distributed import Client

from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_cases import chunks, in_order, judged_chunk
from recommender.trials.many_items import Where

AHEAD = 4
RETRIES = 3


def judged_by_cluster(cases: Iterable[Where], books: DatedBooks, address: str) -> Iterator[str]:
    """Yield the line of each case in the order given, judged by the workers of the scheduler at an address.

    Raises Flawed when a worker finds other rules than those here, OSError when there is no scheduler.
    """
    judge = partial(judged_chunk, house=books.house, rules=books.rules, stamp=books.stamp)
    with Client(address, set_as_default=False) as client:  # type: ignore[no-untyped-call]
        submit = partial(client.submit, judge, pure=False, retries=RETRIES)
        hands = sum(client.nthreads().values())
        yield from in_order(submit, chunks(cases), max(1, hands) * AHEAD)

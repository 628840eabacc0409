"""What is alive at the end is not walked through once more."""

import subprocess
import sys

CODE = """
import gc
from recommender.ground.garbage import leave_the_rest

class Kept:
    pass

kept = [Kept() for _ in range(10)]
leave_the_rest()
assert gc.get_freeze_count() > len(kept)
assert not any(isinstance(each, Kept) for each in gc.get_objects())
"""


def test_what_is_alive_is_looked_at_no_more() -> None:
    subprocess.run([sys.executable, "-c", CODE], check=True)

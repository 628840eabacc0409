"""One rule run on one subject."""

import pytest

from recommender.deciding.runs import Run


@pytest.mark.parametrize(("crack", "outcome"), [(True, "holds"), (False, "fails"), (None, "undecided")])
def test_the_outcome_of_a_run_is_that_of_its_condition_as_a_whole(bw, crack, outcome):
    run = Run(bw.rule("any", "frame", "stops_work", bw.yes("damage.crack")), "frame", bw.facts(damage__crack=crack))
    assert run.outcome == run.outcome == run.result.outcome == outcome

"""Many cases on a cluster of two processes on this machine, one of which is lost on the way."""

import json
import os
import shutil
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest

from recommender.ground.flaw import Flawed
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_cases import judged_lines
from recommender.trials.many_items import places

distributed = pytest.importorskip("distributed")


@pytest.fixture(scope="module")
def cluster() -> Iterator["distributed.LocalCluster"]:
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as made:
        yield made


@pytest.fixture(scope="module")
def cases(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three shipped refusals and a bad line, thirty times over, a line each."""
    from recommender.reading.yaml_reader import read_file

    shipped = [read_file(path).data for path in sorted((shipped_cases() / "refuse").glob("*.yaml"))[:3]]
    path = tmp_path_factory.mktemp("cases") / "cases.ndjson"
    named = ({**each, "case": f"{each['case']}-{turn}"} for turn in range(10) for each in shipped)
    lines = [json.dumps(each, default=str) for each in named]
    path.write_text("\n".join([*lines, "{"]) + "\n", encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def alone(cases: Path) -> list[str]:
    return list(judged_lines(places([cases]), DatedBooks(None)))


def test_a_cluster_gives_the_same_bytes(cluster: "distributed.LocalCluster", cases: Path, alone: list[str]) -> None:
    from recommender.trials.many_machines import judged_by_cluster

    assert list(judged_by_cluster(places([cases]), DatedBooks(None), cluster.scheduler_address)) == alone


def test_a_lost_worker_loses_and_doubles_nothing(
    cluster: "distributed.LocalCluster", cases: Path, alone: list[str]
) -> None:
    from recommender.trials.many_machines import judged_by_cluster

    lines = judged_by_cluster(places([cases]), DatedBooks(None), cluster.scheduler_address)
    found = [next(lines)]
    os.kill(next(iter(cluster.workers.values())).pid, signal.SIGKILL)
    assert [*found, *lines] == alone


def test_a_worker_with_other_rules_ends_the_sweep(
    cluster: "distributed.LocalCluster", cases: Path, tmp_path: Path
) -> None:
    from recommender.trials.many_machines import judged_by_cluster

    rules = shutil.copytree(shipped_rules(), tmp_path / "rules")
    books = DatedBooks(None, rules)
    path = rules / "judgement" / "bearing.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("warns of it", "warns"), encoding="utf-8")
    with pytest.raises(Flawed, match="edited while the sweep"):
        list(judged_by_cluster(places([cases]), books, cluster.scheduler_address))

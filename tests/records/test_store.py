"""Records on disk: whole or not at all, never over another one, and every change to them noticed."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from recommender.ground.flaw import Flawed
from recommender.records.record import Record, stored
from recommender.records.store import LARGEST_BYTES, earlier_round, keep, read_record, record_files

ROOT = Path(__file__).resolve().parents[2]


def refused(path: Path) -> str:
    with pytest.raises(Flawed) as caught:
        read_record(path)
    return str(caught.value)


def test_kept_and_read_again(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path / "new" / "folder")
    assert path.name == f"{short.id}.json"
    assert path.read_text(encoding="utf-8") == stored(short.content)
    assert read_record(path) == short


def test_keeping_twice_changes_nothing(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    before = path.stat()
    assert keep(short, tmp_path) == path
    assert path.stat() == before
    assert list(tmp_path.iterdir()) == [path]


def test_another_content_is_never_overwritten(short: Record, tmp_path: Path) -> None:
    path = tmp_path / f"{short.id}.json"
    path.write_text("something else", encoding="utf-8")
    with pytest.raises(Flawed, match="another content"):
        keep(short, tmp_path)
    assert path.read_text(encoding="utf-8") == "something else"


def test_a_folder_that_cannot_be_made(short: Record, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(Flawed, match="cannot be made"):
        keep(short, tmp_path / "file" / "folder")


@pytest.mark.parametrize("seed", range(12))
def test_one_changed_byte_is_noticed(short: Record, tmp_path: Path, seed: int) -> None:
    path = keep(short, tmp_path)
    content = bytearray(path.read_bytes())
    spot = random.Random(seed).randrange(len(content))
    content[spot] ^= 1
    path.write_bytes(content)
    assert "not what was kept" in refused(path)


@pytest.mark.parametrize("spoilt", [b"", b"{}", b"{}\n" * 2], ids=["empty", "cut", "replaced"])
def test_other_content_is_noticed(short: Record, tmp_path: Path, spoilt: bytes) -> None:
    path = keep(short, tmp_path)
    path.write_bytes(spoilt)
    assert "not what was kept" in refused(path)


def test_a_record_cut_off_is_noticed(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    path.write_bytes(path.read_bytes()[:-1])
    assert "not what was kept" in refused(path)


def test_a_renamed_record_is_noticed(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    other = path.rename(tmp_path / f"other-{short.id.rpartition('-')[2]}.json")
    assert "a record of the case `hill-2036`" in refused(other)
    assert "not the name of a record" in refused(other.rename(tmp_path / "copy.json"))


def test_no_record_at_all(tmp_path: Path) -> None:
    assert "no such file" in refused(tmp_path / "lane-000000000000.json")
    assert "a folder" in refused(tmp_path)
    with open(tmp_path / "big-000000000000.json", "wb") as opened:
        opened.truncate(LARGEST_BYTES + 1)
    assert "larger" in refused(tmp_path / "big-000000000000.json")


def test_folders_stand_for_their_records(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    for name in ("notes.json", ".123.part", f"{short.id}.disposition.json"):
        (tmp_path / name).write_text("x", encoding="utf-8")
    assert record_files([tmp_path, Path("named.json")]) == (path, Path("named.json"))


def test_the_earlier_round_is_found_by_its_id(short: Record, tmp_path: Path) -> None:
    keep(short, tmp_path)
    assert earlier_round(short.id, tmp_path) == short
    assert earlier_round(None, tmp_path) is None
    assert earlier_round("hill-2036-000000000000", tmp_path) is None
    assert earlier_round("../outside", tmp_path) is None


WRITER = """
import sys
from pathlib import Path
from recommender.records.store import keep, read_record
record = read_record(Path(sys.argv[1]))
print("ready", flush=True)
count = 0
while True:
    folder = Path(sys.argv[2]) / str(count)
    keep(record, folder)
    count += 1
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no such signal there")
def test_killed_at_any_moment_a_record_is_whole_or_absent(short: Record, tmp_path: Path) -> None:
    source, moments = keep(short, tmp_path / "source"), random.Random(7)
    whole = 0
    for attempt in range(8):
        out = tmp_path / f"out{attempt}"
        run = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(source), str(out)], stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )  # fmt: skip
        assert run.stdout is not None
        assert run.stdout.readline() == b"ready\n"
        time.sleep(moments.uniform(0.0, 0.06))
        run.send_signal(signal.SIGKILL)
        run.wait()
        run.stdout.close()
        for path in record_files(each for each in sorted(out.glob("*")) if each.is_dir()):
            assert read_record(path) == short
            whole += 1
        for folder in out.glob("*"):
            assert read_record(keep(short, folder)) == short
    assert whole > 0

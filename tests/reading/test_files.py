"""Opening and writing files."""

import os
from pathlib import Path
from typing import Any

import pytest

from recommender.ground.flaw import Flaw, Flawed
from recommender.reading import files
from recommender.reading.files import MOST_ENTRIES, below, read_bytes, read_text_file, write_atomically
from recommender.reading.yaml_reader import read_file


def refusal(path: Path | str) -> Flaw:
    with pytest.raises(Flawed) as refused:
        read_file(path)
    (found,) = refused.value.flaws
    assert found.place.file == str(path)
    assert found.advice
    return found


def test_missing(tmp_path: Path) -> None:
    assert refusal(tmp_path / "none.yaml").check == "file.missing"
    (tmp_path / "file").write_text("x")
    assert refusal(tmp_path / "file" / "below").check == "file.missing"


def test_folder(tmp_path: Path) -> None:
    found = refusal(tmp_path)
    assert (found.check, found.message) == ("file.not-a-file", "this is a folder, not a file")


def test_device_and_pipe(tmp_path: Path) -> None:
    assert refusal("/dev/null").message == "this is a device or pipe, not a file"
    os.mkfifo(tmp_path / "pipe")
    assert refusal(tmp_path / "pipe").check == "file.not-a-file"


def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "case.yaml").write_text("a: 1")

    def refuse(*_arguments: Any) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(files, "open", refuse, raising=False)
    assert refusal(tmp_path / "case.yaml").check == "file.permission"


def test_names_no_system_can_open(tmp_path: Path) -> None:
    assert refusal("a\0b").check == "file.unreadable"
    assert refusal(tmp_path / ("x" * 300)).check == "file.unreadable"
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    assert refusal(tmp_path / "loop").check == "file.unreadable"


def test_a_large_file_is_refused_before_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "large.yaml"
    with path.open("wb") as opened:
        opened.truncate(10_000_000)

    def never(*_arguments: Any) -> None:
        raise AssertionError("opened")

    monkeypatch.setattr(files, "open", never, raising=False)
    found = refusal(path)
    assert (found.check, found.message) == ("file.too-large", "larger than 1000 kB")


def test_a_file_that_grows_while_it_is_read(tmp_path: Path) -> None:
    assert read_bytes(_of_size(tmp_path, 10), largest=10) == b"x" * 10
    with pytest.raises(Flawed, match="larger than"):
        read_bytes(_of_size(tmp_path, 11), largest=10)


def test_pretended_size(monkeypatch: pytest.MonkeyPatch) -> None:
    # Files under /proc claim to be empty; what was read counts, not what was claimed.
    with pytest.raises(Flawed, match="larger than"):
        read_bytes("/proc/self/status", largest=10)


def _of_size(folder: Path, size: int) -> Path:
    path = folder / "some.txt"
    path.write_bytes(b"x" * size)
    return path


@pytest.mark.parametrize(
    ("content", "check", "at"),
    [
        (b"\x7fELF\0\0", "file.binary", "1:1"),
        ("a: 1".encode("utf-16"), "file.encoding", "1:1"),
        (b"a: 1\nb: \xe4", "file.encoding", "2:4"),
        ("\u00e4: 1\r\n".encode() + b"bc\xff", "file.encoding", "2:3"),
        (b"\xff", "file.encoding", "1:1"),
    ],
)
def test_not_utf8(tmp_path: Path, content: bytes, check: str, at: str) -> None:
    path = tmp_path / "case.yaml"
    path.write_bytes(content)
    found = refusal(path)
    assert (found.check, f"{found.place.line}:{found.place.column}") == (check, at)


def test_written_text_is_read_again(tmp_path: Path) -> None:
    path = tmp_path / "out.yaml"
    write_atomically(path, "a: \u00e4\n")
    write_atomically(str(path), "a: \u00f6\n")
    assert read_text_file(path) == "a: \u00f6\n"
    assert list(tmp_path.iterdir()) == [path]


def test_a_failed_write_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "out.yaml"
    path.write_text("old")

    def refuse(*_arguments: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(files.os, "replace", refuse)
    with pytest.raises(Flawed, match="No space left on device"):
        write_atomically(path, "new")
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_link_keeps_pointing(tmp_path: Path) -> None:
    (tmp_path / "real").write_text("old")
    (tmp_path / "link").symlink_to("real")
    write_atomically(tmp_path / "link", "new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real").read_text() == "new"


@pytest.mark.parametrize(
    ("target", "check"),
    [("none/out", "file.missing"), (".", "file.not-a-file"), ("x" * 300, "file.unwritable")],
)
def test_where_nothing_can_be_written(tmp_path: Path, target: str, check: str) -> None:
    with pytest.raises(Flawed) as refused:
        write_atomically(tmp_path / target, "text")
    assert refused.value.flaws[0].check == check


def test_everything_below_a_folder_is_found_what_cannot_be_opened_too(tmp_path: Path) -> None:
    (tmp_path / "a" / "b").mkdir(parents=True)
    (tmp_path / "a" / "b" / "file").touch()
    os.mkfifo(tmp_path / "a" / "pipe")
    (tmp_path / "gone").symlink_to("nowhere")
    (tmp_path / "again").symlink_to(tmp_path, target_is_directory=True)
    assert below(tmp_path) == [tmp_path / each for each in ("a/b/file", "a/pipe", "again", "gone")]


def test_a_folder_that_cannot_be_looked_into_is_not_passed_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "closed").mkdir()
    look = os.scandir

    def refuse(folder: Any) -> Any:
        if str(folder).endswith("closed"):
            raise PermissionError(13, "Permission denied", str(folder))
        return look(folder)

    monkeypatch.setattr(files.os, "scandir", refuse)
    with pytest.raises(Flawed, match=r"closed.*no permission"):
        below(tmp_path)


def test_a_folder_of_very_many_files_is_refused(tmp_path: Path) -> None:
    for count in range(MOST_ENTRIES):
        (tmp_path / f"{count}").touch()
    assert len(below(tmp_path)) == MOST_ENTRIES
    (tmp_path / "one more").mkdir()
    with pytest.raises(Flawed, match="more than 1000 files"):
        below(tmp_path)


def test_half_a_character_is_spelt_out(tmp_path: Path) -> None:
    write_atomically(tmp_path / "out", f"of {os.fsdecode(b'lane-%b.yaml' % bytes([255]))}")
    assert (tmp_path / "out").read_text("utf-8") == "of lane-\\udcff.yaml"


def test_no_permission_to_write(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_arguments: Any) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(files, "open", refuse, raising=False)
    with pytest.raises(Flawed, match="no permission to write"):
        write_atomically(tmp_path / "out", "text")
    assert not list(tmp_path.iterdir())

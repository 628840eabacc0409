"""Every command against files and folders nobody should name: a clear error or an answer, no traceback, no wait."""

import os
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from recommender.cli.app import app
from recommender.cli.guard import EXIT_CANNOT_JUDGE, guarded
from recommender.reading.shipped import shipped_cases

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="no pipes, devices and links of this kind there")

LONGEST_WAIT = 20
NOBODY_FORESAW = "fault in the tool itself"
Told = Callable[..., tuple[int, str, str]]
RECORD_ID = "lane-2041-0123456789ab"


@pytest.fixture
def told(capfd: pytest.CaptureFixture[str]) -> Iterator[Told]:
    """Return a function that runs a command as a process would, and gives its exit code and what it printed."""

    def _told(*arguments: object) -> tuple[int, str, str]:
        signal.alarm(LONGEST_WAIT)
        code = guarded(lambda: app([os.fspath(each) for each in map(_text, arguments)], prog_name="borewright"))
        signal.alarm(0)
        out, err = capfd.readouterr()
        return code, out, err

    def _hung(*_: object) -> None:
        raise AssertionError(f"still waiting after {LONGEST_WAIT} s")

    before = signal.signal(signal.SIGALRM, _hung)
    yield _told
    signal.signal(signal.SIGALRM, before)


def _text(argument: object) -> str:
    return argument if isinstance(argument, str) else os.fspath(argument)  # type: ignore[call-overload, no-any-return]


def _folder(path: Path) -> None:
    path.mkdir()


def _large(path: Path) -> None:
    with path.open("wb") as opened:
        opened.truncate(10**11)


BAD: dict[str, Callable[[Path], object]] = {
    "missing": lambda path: None,
    "folder": _folder,
    "pipe": os.mkfifo,
    "endless device": lambda path: path.symlink_to("/dev/zero"),
    "empty device": lambda path: path.symlink_to("/dev/null"),
    "link to itself": lambda path: path.symlink_to(path),
    "link to nothing": lambda path: path.symlink_to(path.parent / "gone"),
    "100 GB": _large,
    "empty": lambda path: path.write_bytes(b""),
    "UTF-16": lambda path: path.write_text("case: lane", encoding="utf-16"),
    "UTF-32": lambda path: path.write_text("case: lane", encoding="utf-32"),
    "latin-1": lambda path: path.write_bytes("case: Kohl\xe9".encode("latin-1")),
    "byte order mark alone": lambda path: path.write_bytes(b"\xef\xbb\xbf"),
    "NUL": lambda path: path.write_bytes(b"case: x\0\n"),
    "program": lambda path: path.write_bytes(Path(sys.executable).read_bytes()[:5000]),
    "deep": lambda path: path.write_text("{" * 100_000),
    "deep JSON": lambda path: path.write_text('{"a":' * 100_000),
    "a number of 400 digits": lambda path: path.write_text("case: x\nreceived: " + "9" * 400),
    "a JSON number of 5000 digits": lambda path: path.write_text('{"format": ' + "9" * 5000 + "}"),
}  # fmt: skip
CASE_COMMANDS = (("advise",), ("why",), ("plan",), ("report", "--to", "out.html"))
RECORD_COMMANDS = (
    ("records", "show"), ("replay",), ("why",), ("report", "--to", "out.html"),
    ("records", "done", "--by", "x", "--date", "2026-05-06", "--what", "y"),
)  # fmt: skip


def _refused(said: tuple[int, str, str], path: Path, codes: tuple[int, ...] = (EXIT_CANNOT_JUDGE,)) -> str:
    code, _, err = said
    assert code in codes, said
    assert NOBODY_FORESAW not in err
    assert "Traceback" not in err
    assert path.name in err.replace("\n", "").replace(" ", "") or path.name in err
    return err


@pytest.mark.parametrize("kind", BAD)
def test_no_command_takes_a_case_that_is_none(
    kind: str, told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "case.yaml"
    BAD[kind](path)
    for command in CASE_COMMANDS:
        if kind == "folder" and command == ("advise",):
            continue
        _refused(told(*command, path), path)
    assert not (tmp_path / "out.html").exists()


@pytest.mark.parametrize("kind", BAD)
def test_no_command_takes_a_record_that_is_none(
    kind: str, told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / f"{RECORD_ID}.json"
    BAD[kind](path)
    for command in RECORD_COMMANDS:
        if kind == "folder" and command == ("replay",):
            continue
        _refused(told(*command, path), path, codes=(1, EXIT_CANNOT_JUDGE))
    _refused(told("records", "compare", path, path), path)
    assert not (tmp_path / "out.html").exists()
    assert not list(tmp_path.glob("*.disposition.json"))


@pytest.mark.parametrize("kind", BAD)
def test_no_sheet_and_no_sweep_waits_or_stumbles(
    kind: str, told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("sheet.csv", "lines.ndjson", "one.yaml"):
        BAD[kind](tmp_path / name)
    _refused(told("cases", "import", tmp_path / "sheet.csv"), tmp_path / "sheet.csv")
    if kind == "100 GB":  # a file of lines may be as long as it likes; this one would only take its time
        (tmp_path / "lines.ndjson").unlink()
    code, out, err = told("sweep", tmp_path / "lines.ndjson", tmp_path / "one.yaml", "--jobs", "1")
    assert code in (0, 1, EXIT_CANNOT_JUDGE)
    assert NOBODY_FORESAW not in err
    assert '"fault"' not in out
    assert "Traceback" not in err


@pytest.mark.parametrize("kind", ["pipe", "endless device", "link to itself", "link to nothing", "empty", "NUL"])
def test_one_bad_file_among_house_rules_stops_everything(kind: str, told: Told, tmp_path: Path) -> None:
    """A house folder is never fallen back from in silence: not for a broken link, a pipe or a device either."""
    house = tmp_path / "house"
    assert told("rules", "start", house)[0] == 0
    BAD[kind](house / "more.yaml")
    case = shipped_cases() / "refuse" / "hill-2036.yaml"
    code, out, err = told("advise", case, "--house", house)
    assert code == EXIT_CANNOT_JUDGE, (out, err)
    assert "more.yaml" in err
    assert NOBODY_FORESAW not in err


@pytest.mark.parametrize("kind", ["missing", "pipe", "endless device", "link to itself", "link to nothing", "empty"])
def test_a_house_that_is_no_folder_is_refused(kind: str, told: Told, tmp_path: Path) -> None:
    BAD[kind](tmp_path / "house")
    err = _refused(told("advise", shipped_cases() / "refuse" / "hill-2036.yaml", "--house", tmp_path / "house"),
                   tmp_path / "house")  # fmt: skip
    assert "no such folder" in err


def test_a_link_to_a_folder_of_rules_is_told_not_passed_over(told: Told, tmp_path: Path) -> None:
    house, other = tmp_path / "house", tmp_path / "other"
    assert told("rules", "start", house)[0] == told("rules", "start", other)[0] == 0
    (house / "more").symlink_to(other, target_is_directory=True)
    code, _, err = told("advise", shipped_cases() / "refuse" / "hill-2036.yaml", "--house", house)
    assert code == EXIT_CANNOT_JUDGE
    assert "link to a folder" in err


def test_a_whole_disk_named_as_rules_is_not_searched(told: Told, tmp_path: Path) -> None:
    house = tmp_path / "house"
    house.mkdir()
    for count in range(1_500):
        (house / f"{count}.txt").touch()
    code, _, err = told("advise", shipped_cases() / "refuse" / "hill-2036.yaml", "--house", house)
    assert code == EXIT_CANNOT_JUDGE
    assert "files" in err
    code, _, err = told("advise", shipped_cases() / "refuse" / "hill-2036.yaml", "--house", "/")
    assert code == EXIT_CANNOT_JUDGE


NAMES = {
    "not UTF-8": os.fsdecode(b"lane-\xff\xfe.yaml"),
    "escape sequence": "lane\x1b[2J.yaml",
    "two lines": "lane\n2041.yaml",
    "spaces": "  lane 2041 .yaml",
    "right to left": "lane\u202elmay.yaml",
    "dashes": "--help.yaml",
    "markup": "<script>alert(1)</script>".replace("/", "\u2215") + ".yaml",
}


@pytest.mark.parametrize("kind", NAMES)
@pytest.mark.parametrize("good", [True, False])
def test_any_name_of_a_file_is_told_without_harm(
    kind: str, good: bool, told: Told, tmp_path: Path, case_text: str
) -> None:
    path = tmp_path / NAMES[kind]
    path.write_text(case_text if good else "case: x\n", encoding="utf-8")
    code, out, err = told("advise", path, "--keep", tmp_path / "kept")
    assert code == (0 if good else EXIT_CANNOT_JUDGE), err
    assert "\x1b" not in out + err
    assert NOBODY_FORESAW not in err
    if good and kind in ("not UTF-8", "markup"):
        code, out, err = told("report", path, "--to", tmp_path / "page.html", "--quick")
        assert code == 0, err
        assert "<script>alert(1)" not in (tmp_path / "page.html").read_text("utf-8")
    code, out, err = told("sweep", path, "--jobs", "1")
    assert code == (0 if good else 1)
    assert '"fault"' not in out


OUTSIDE = ["../../etc/passwd", "/etc/passwd", "a/../../b", "..", ".", "con\\..\\x", "a b", "x" * 200, "\u202ex", "-rf"]


@pytest.mark.parametrize("name", OUTSIDE)
def test_no_case_id_leads_out_of_the_folder_of_records(
    name: str, told: Told, tmp_path: Path, case_text: str
) -> None:
    path, kept = tmp_path / "case.yaml", tmp_path / "deep" / "down" / "kept"
    path.write_text(case_text.replace("case: lane-2041", f"case: '{name}'", 1), encoding="utf-8")
    code, _, err = told("advise", path, "--keep", kept)
    assert NOBODY_FORESAW not in err
    written = {each for each in tmp_path.rglob("*") if each.is_file()} - {path}
    assert all(kept in each.parents for each in written)
    assert code in (0, EXIT_CANNOT_JUDGE)
    if code == EXIT_CANNOT_JUDGE:
        assert not written


@pytest.mark.parametrize("name", [*OUTSIDE, f"../{RECORD_ID}", f"{RECORD_ID}\0"])
def test_no_earlier_record_is_looked_for_outside(name: str, told: Told, tmp_path: Path, case_text: str) -> None:
    path, kept = tmp_path / "in" / "case.yaml", tmp_path / "in" / "kept"
    kept.mkdir(parents=True)
    os.mkfifo(tmp_path / "in" / f"{RECORD_ID}.json")  # would be waited for, were it opened
    path.write_text(case_text.replace("follows: null", f'follows: "{name}"'.replace("\0", "\\0"), 1), encoding="utf-8")
    code, _, err = told("why", path, "--kept", kept, "--quick")
    assert code in (0, EXIT_CANNOT_JUDGE)
    assert NOBODY_FORESAW not in err


TARGETS = {"folder": _folder, "pipe": os.mkfifo, "device": lambda path: path.symlink_to("/dev/full"),
           "no folder": lambda path: None}  # fmt: skip


@pytest.mark.parametrize("kind", TARGETS)
def test_nothing_is_written_where_no_file_can_be(kind: str, told: Told, tmp_path: Path, case_path: Path) -> None:
    out = tmp_path / ("out" if kind != "no folder" else "none/out")
    TARGETS[kind](out)
    for command in (("report", case_path, "--quick", "--to", out), ("sweep", case_path, "--jobs", "1", "--out", out)):
        code, _, err = told(*command)
        assert code == EXIT_CANNOT_JUDGE, (command, err)
        assert NOBODY_FORESAW not in err
    code, _, err = told("plan", "--standard", "pf30", "--material", "carbon", "--instrument",
                        "three_point_micrometer:4 um", "--to", out)  # fmt: skip
    assert code == EXIT_CANNOT_JUDGE, err
    assert NOBODY_FORESAW not in err


def test_a_page_is_never_written_over_a_case_or_record(told: Told, tmp_path: Path) -> None:
    case, kept = tmp_path / "case.yaml", tmp_path / "kept"
    case.write_bytes((shipped_cases() / "refuse" / "hill-2036.yaml").read_bytes())
    assert told("advise", case, "--keep", kept)[0] == 0
    (record,) = kept.iterdir()
    (tmp_path / "link.html").symlink_to(case)
    before = case.read_bytes(), record.read_bytes()
    for source, to in ((case, case), (case, tmp_path / "link.html"), (record, record), (case, record)):
        code, _, err = told("report", source, "--quick", "--to", to)
        assert code == EXIT_CANNOT_JUDGE
        assert "never written over" in err.replace("\n", " ")
    assert (case.read_bytes(), record.read_bytes()) == before


NUMBERS = ["1e308", "5e-324", "-0.0", "9" * 29, "0." + "0" * 25 + "1"]
PLACES = ["45.972, 45.975", "68.1 mm", "4 um", "10 mm", "20.4 degC", "46.001 mm", "46.032 mm", "3 arcmin", "8 mm",
          "at: {2: ", "turns: [0, 40, 80]", "model_year: 2024", "fitted: 2"]  # fmt: skip


@pytest.mark.parametrize("number", NUMBERS)
def test_numbers_at_the_ends_of_what_a_computer_holds(
    number: str, told: Told, tmp_path: Path, case_text: str
) -> None:
    path = tmp_path / "case.yaml"
    answered = 0
    for place in PLACES:
        digits = "".join(each for each in place.split(",")[0] if each.isdigit() or each == ".").lstrip(".")
        spoilt = case_text.replace(place, place.replace(digits, number, 1), 1)
        if spoilt == case_text:
            continue
        path.write_text(spoilt, encoding="utf-8")
        code, out, err = told("advise", path, "--format", "json")
        assert code in (0, EXIT_CANNOT_JUDGE), (place, err)
        assert NOBODY_FORESAW not in err, (place, err)
        assert "NaN" not in out
        assert "Infinity" not in out
        answered += 1
    assert answered >= 8


NOBODY = 65534


@pytest.mark.parametrize("command", [("advise",), ("sweep", "--jobs", "1"), ("replay",), ("records", "show"), ("why",)])
def test_a_folder_nobody_may_open_is_told(
    command: tuple[str, ...], told: Told, tmp_path: Path, case_text: str, case_path: Path
) -> None:
    told("advise", case_path)  # what is imported while another user would need a folder of ours, too
    told("sweep", case_path, "--jobs", "1")
    closed = tmp_path / "closed"
    closed.mkdir()
    path = closed / (f"{RECORD_ID}.json" if command[0] in ("replay", "records") else "case.yaml")
    path.write_text(case_text, encoding="utf-8")
    closed.chmod(0)
    root = os.geteuid() == 0
    try:
        if root:
            os.seteuid(NOBODY)
        for each in (path, closed):
            code, out, err = told(*command, each)
            assert code in (1, EXIT_CANNOT_JUDGE), err
            assert NOBODY_FORESAW not in err
            assert "ermission" in out + err
    finally:
        if root:
            os.seteuid(0)
        closed.chmod(0o700)

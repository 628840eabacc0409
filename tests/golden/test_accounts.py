"""What `advise` and `why` print stays as it was read and agreed to; `accounts.py` beside this file writes it anew."""

import importlib.util
import re
from pathlib import Path

import pytest

SPEC = importlib.util.spec_from_file_location("golden_accounts", Path(__file__).with_name("accounts.py"))
assert SPEC is not None
assert SPEC.loader is not None
accounts = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(accounts)


@pytest.mark.parametrize("command", accounts.COMMANDS)
@pytest.mark.parametrize("case", accounts.CASES, ids=lambda case: Path(case).stem)
def test_account_is_as_kept(case: str, command: str) -> None:
    assert accounts.told(command, case) == accounts.kept(command, case).read_text(encoding="utf-8")


@pytest.mark.parametrize("path", sorted(accounts.KEPT.glob("*.txt")), ids=lambda path: path.stem)
def test_account_reads_on_any_terminal(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80
    assert not re.search(r"\bsafe\b", text, re.IGNORECASE)
    assert str(accounts.ROOT) not in text


def test_the_readme_prints_what_its_first_command_prints() -> None:
    (printed,) = accounts.PRINTED.findall(accounts.README.read_text("utf-8"))
    assert printed == accounts.told("advise", accounts.CASES[0])

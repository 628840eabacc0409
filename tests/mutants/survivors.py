"""The changes that no test can notice: kept in survivors.yaml, each with why; found again by the text of its line."""

import ast
import hashlib
from pathlib import Path
from typing import Any, NamedTuple

import yaml

import recommender

PACKAGE = Path(recommender.__file__).parent
KEPT = Path(__file__).with_name("survivors.yaml")


class Mutant(NamedTuple):
    """One changed line: its module such as `deciding/frame.py`, and its text before and after, without indent."""

    module: str
    line: int
    before: str
    after: str

    @property
    def place(self) -> str:
        """Return the function it stands in, after its class."""
        return function_at(self.module, self.line)

    @property
    def name(self) -> str:
        """Return what names it as long as the module stays as it is."""
        source = hashlib.sha256((PACKAGE / self.module).read_bytes()).hexdigest()
        return f"{self.module}:{self.line} {self.after} {source[:16]}"

    def source(self) -> str:
        """Return the module as changed."""
        lines = (PACKAGE / self.module).read_text("utf-8").splitlines()
        old = lines[self.line - 1]
        lines[self.line - 1] = old[: len(old) - len(old.lstrip())] + self.after
        return "\n".join(lines) + "\n"

    def entry(self, why: str = "") -> dict[str, str]:
        """Return it as it stands in survivors.yaml."""
        return {"module": self.module, "in": self.place, "was": self.before, "now": self.after, "why": why}


def listed(path: Path = KEPT) -> dict[Mutant, str]:
    """Return the changes of a file, with why no test notices them; raise ValueError where one has no place any more."""
    return {_found(each): each["why"] for each in yaml.safe_load(path.read_text("utf-8")) or ()}


def _found(entry: dict[str, Any]) -> Mutant:
    lines = (PACKAGE / entry["module"]).read_text("utf-8").splitlines()
    for number, line in enumerate(lines, 1):
        if line.strip() == entry["was"] and function_at(entry["module"], number) == entry["in"]:
            return Mutant(entry["module"], number, entry["was"], entry["now"])
    raise ValueError(f"{entry['module']}: no line `{entry['was']}` in `{entry['in']}`")


def function_at(module: str, line: int) -> str:
    """Return the outermost function around a line, after its class; of lines in none, nothing or the class."""
    return next((name for name, first, last in functions(module) if first <= line <= last), "")


def functions(module: str) -> list[tuple[str, int, int]]:
    """Return name, first and last line of every function of a module and of the methods of its classes."""
    found = list[tuple[str, int, int]]()
    for node in ast.parse((PACKAGE / module).read_text("utf-8")).body:
        inside = node.body if isinstance(node, ast.ClassDef) else [node]
        before = f"{node.name}." if isinstance(node, ast.ClassDef) else ""
        found += [(before + each.name, each.lineno, each.end_lineno or 0) for each in inside
                  if isinstance(each, ast.FunctionDef)]  # fmt: skip
    return found

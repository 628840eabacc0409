"""Modules and functions stay small, and everything is annotated."""

import ast
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

import recommender

PACKAGE = Path(recommender.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))
CODE = [module for module in MODULES if module.name != "__init__.py"]
LONGEST_MODULE, MEDIAN_MODULE = 400, 90
LONGEST_FUNCTION, MEDIAN_FUNCTION = 60, 9
Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions(module: Path) -> Iterator[Function]:
    """Yield every function and method of a module, nested ones too."""
    tree = ast.parse(module.read_text("utf-8"))
    yield from (node for node in ast.walk(tree) if isinstance(node, Function))


def lines_of(node: Function) -> int:
    """Return the lines of a function from its `def` to its end."""
    return (node.end_lineno or node.lineno) - node.lineno + 1


def name(module: Path) -> str:
    return module.relative_to(PACKAGE).as_posix()


def test_no_module_is_too_long() -> None:
    lengths = {name(module): len(module.read_text("utf-8").splitlines()) for module in MODULES}
    assert {each: length for each, length in lengths.items() if length > LONGEST_MODULE} == {}


def test_no_function_is_too_long() -> None:
    found = {f"{name(module)}:{node.name}": lines_of(node) for module in MODULES for node in functions(module)}
    assert {each: length for each, length in found.items() if length > LONGEST_FUNCTION} == {}


def test_the_usual_module_and_function_are_short() -> None:
    of_modules = median(len(module.read_text("utf-8").splitlines()) for module in CODE)
    of_functions = median(lines_of(node) for module in CODE for node in functions(module))
    print(f"median module {of_modules} lines, median function {of_functions} lines")  # noqa: T201
    assert of_modules <= MEDIAN_MODULE
    assert of_functions <= MEDIAN_FUNCTION


@pytest.mark.parametrize("module", CODE, ids=name)
def test_everything_is_annotated(module: Path) -> None:
    assert [f"{node.lineno} {node.name}" for node in functions(module) if not _annotated(node)] == []


def _annotated(node: Function) -> bool:
    known = node.args
    positional = [*known.posonlyargs, *known.args]
    if positional and positional[0].arg in ("self", "cls"):
        positional = positional[1:]
    others = [*known.kwonlyargs, *(each for each in (known.vararg, known.kwarg) if each)]
    return node.returns is not None and all(each.annotation is not None for each in [*positional, *others])

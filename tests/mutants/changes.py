"""The changes that are made to the code: those of cosmic-ray, a few of our own, and which are left out and why."""

import ast
import warnings
from collections.abc import Iterable, Iterator
from functools import cache
from random import Random
from typing import Any

import parso
import parso.python.tree as tree
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.operator import Operator
from cosmic_ray.plugins import get_operator, operator_names

from mutants.survivors import PACKAGE, Mutant

# Sets and masks know these, numbers do not: one in place of the other means something, anything else only an error.
OF_SETS = ("BitOr", "BitAnd", "BitXor")
OF_BITS = ("RShift", "LShift")
NEED_ARGUMENTS = ("core/VariableReplacer", "core/VariableInserter")
KEEPS_RESULTS = frozenset({"cache", "lru_cache", "cached_property"})
OF_A_CLASS = frozenset({"frozen", "slots", "kw_only", "eq", "repr"})
WORDS = (("min", "max"), ("any", "all"), ("minimum", "maximum"), ("sin", "cos"), ("ceil", "floor"),
         ("argmin", "argmax"), ("low", "high"))  # fmt: skip


class SwapWords(Operator):
    """Takes the smallest for the largest, some for all, the low end of an interval for the high one, and so on."""

    def __init__(self) -> None:
        self.other = dict(WORDS) | {second: first for first, second in WORDS}

    def mutation_positions(self, node: Any) -> Iterator[Any]:
        if not isinstance(node, tree.Name) or node.value not in self.other or node.is_definition():
            return
        if not (node.get_next_leaf().value == "=" and node.parent.type == "argument"):
            yield node.start_pos, node.end_pos

    def mutate(self, node: Any, index: int) -> Any:
        node.value = self.other[node.value]
        return node

    @classmethod
    def examples(cls) -> Iterable[Any]:
        return ()


class DropCondition(Operator):
    """Takes everything where a comprehension takes what meets its condition."""

    def mutation_positions(self, node: Any) -> Iterator[Any]:
        if node.type == "comp_if":
            yield node.children[1].start_pos, node.end_pos

    def mutate(self, node: Any, index: int) -> Any:
        node.children[1] = parso.parse(" True")
        return node

    @classmethod
    def examples(cls) -> Iterable[Any]:
        return ()


class NegateCondition(Operator):
    """Takes what does not meet the condition of a comprehension."""

    def mutation_positions(self, node: Any) -> Iterator[Any]:
        if node.type == "comp_if":
            yield node.children[1].start_pos, node.end_pos

    def mutate(self, node: Any, index: int) -> Any:
        node.children[1] = parso.parse(f" not ({node.children[1].get_code().strip()})")
        return node

    @classmethod
    def examples(cls) -> Iterable[Any]:
        return ()


OWN: dict[str, type[Operator]] = {"own/SwapWords": SwapWords, "own/DropCondition": DropCondition,
                                  "own/NegateCondition": NegateCondition}  # fmt: skip


@cache
def operators() -> dict[str, Operator]:
    """Return every operator that is used, by name."""
    made = {name: get_operator(name)() for name in sorted(operator_names()) if _fits(name)}
    return made | {name: kind() for name, kind in OWN.items()}


def _fits(name: str) -> bool:
    if name in NEED_ARGUMENTS:
        return False
    replaced, _, change = name.partition("Operator_")
    first, _, second = change.partition("_")
    if replaced.endswith("ReplaceBinary"):
        return all((first in kind) == (second in kind) for kind in (OF_SETS, OF_BITS))
    if replaced.endswith("ReplaceComparison"):
        return (first in ("Is", "IsNot")) == (second in ("Is", "IsNot"))
    return True


def every_place(package: str) -> Iterator[tuple[str, str, int, tuple[int, int]]]:
    """Yield module, operator, occurrence, and line and column of every change of a package that is not left out."""
    known = operators()
    for path in sorted((PACKAGE / package).glob("*.py")):
        source = path.read_text(encoding="utf-8")
        nodes, left_out = list(_nodes(parso.parse(source))), _left_out(source)
        for name, operator in known.items():
            starts = ((node, start) for node in nodes for start, *_ in operator.mutation_positions(node))
            for occurrence, (node, (line, column)) in enumerate(starts):
                if _orders_words(name, node):
                    continue
                if not any(first <= (line, column) < last for first, last in left_out):
                    yield path.relative_to(PACKAGE).as_posix(), name, occurrence, (line, column)


def _orders_words(name: str, node: Any) -> bool:
    """Return whether a change would ask which of two words comes first in the alphabet."""
    return (name.startswith("core/ReplaceComparisonOperator_") and not name.endswith(("_Eq_NotEq", "_NotEq_Eq"))
            and any(child.type == "string" for child in node.children))


def _nodes(node: Any) -> Iterator[Any]:
    yield node
    for child in getattr(node, "children", ()):
        yield from _nodes(child)


def drawn(package: str, seed: int, count: int) -> tuple[list[Mutant], int]:
    """Return `count` changes at as many places drawn at random, and how many places there are to draw from.

    A place where eleven changes are possible weighs no more than one where one is. The same seed and the same code
    give the same changes; one that does not compile, makes nothing of the line or spans lines is drawn again.
    """
    places: dict[tuple[str, tuple[int, int]], list[tuple[str, int]]] = {}
    for module, name, occurrence, at in every_place(package):
        places.setdefault((module, at), []).append((name, occurrence))
    random = Random(f"{seed} {package}")
    order, made = random.sample(sorted(places), len(places)), list[Mutant]()
    while order and len(made) < count:
        place = order.pop(0)
        possible = (_made(place[0], *each) for each in random.sample(places[place], len(places[place])))
        made += filter(None, [next((each for each in possible if each and each not in made), None)])
    return made, len(places)


def _made(module: str, name: str, occurrence: int) -> Mutant | None:
    before = (PACKAGE / module).read_text(encoding="utf-8")
    after = mutate_code(before, operators()[name], occurrence)
    if after is None or not _compiles(after):
        return None
    old, new = before.splitlines(), after.splitlines()
    changed = [index for index, (was, now) in enumerate(zip(old, new, strict=False)) if was != now]
    if len(old) != len(new) or len(changed) != 1:
        return None
    at = changed[0]
    return Mutant(module, at + 1, old[at].strip(), new[at].strip())


def _compiles(source: str) -> bool:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            compile(source, "mutant", "exec")
        except (SyntaxError, ValueError):
            return False
    return True


def _left_out(source: str) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Return from where to where nothing is changed.

    Annotations, names of types and questions about them, blocks under `TYPE_CHECKING`, decorators that keep a result
    for the next call and what only says how a data class is stored: none of them changes what is computed.
    """
    module = ast.parse(source)
    nodes = [each for node in ast.walk(module) for each in _without_effect(node)]
    nodes += [each for each in module.body if _names_a_type(each)]
    return [((each.lineno, each.col_offset), (each.end_lineno or 0, each.end_col_offset or 0)) for each in nodes]


def _without_effect(node: ast.AST) -> Iterator[Any]:
    if isinstance(node, ast.FunctionDef):
        yield from filter(None, [node.returns, *(each.annotation for each in ast.walk(node.args)
                                                 if isinstance(each, ast.arg))])  # fmt: skip
    if isinstance(node, ast.AnnAssign):
        yield node.annotation
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "isinstance":
        yield node.args[1]
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        for decorator in node.decorator_list:
            if KEEPS_RESULTS & {each.id for each in ast.walk(decorator) if isinstance(each, ast.Name)}:
                yield _with_at(decorator)
            if isinstance(decorator, ast.Call):
                yield from (each for each in decorator.keywords if each.arg in OF_A_CLASS)
    if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
        yield node


def _with_at(decorator: Any) -> ast.AST:
    return ast.Expr(value=decorator, lineno=decorator.lineno, col_offset=0, end_lineno=decorator.end_lineno,
                    end_col_offset=decorator.end_col_offset)  # fmt: skip


def _names_a_type(node: ast.stmt) -> bool:
    return isinstance(node, ast.Assign) and isinstance(node.value, ast.BinOp | ast.Subscript) and all(
        isinstance(each, ast.BinOp | ast.BitOr | ast.Name | ast.Attribute | ast.Subscript | ast.Tuple | ast.Load
                   | ast.Constant | ast.List) for each in ast.walk(node.value)
    ) and isinstance(node.targets[0], ast.Name) and not node.targets[0].id.isupper()  # fmt: skip

"""Puts changed code into the program as it lies loaded in this process, so that nothing has to be loaded again."""

import ast
import gc
import sys
from collections.abc import Iterator
from contextlib import suppress
from functools import _lru_cache_wrapper
from types import FunctionType, MemberDescriptorType, ModuleType
from typing import Any

OF_EVERY_CLASS = frozenset({"__dict__", "__weakref__", "__doc__", "__module__", "__slots__", "__annotations__"})
SHARED_BY_ALL = (bool, int, float, str, bytes, type(None))


class NotPutIn(Exception):
    """A change that cannot be made in a running process: it counts neither as noticed nor as overlooked."""


def graft(module: ModuleType, before: str, after: str) -> None:
    """Make a loaded module behave as if it had been loaded from `after` instead of `before`.

    Only statements at the top of the module that differ run again, and those that take a value from one that does.
    Functions and classes stay the objects they were, with the code of the new ones; constants are put wherever
    another module holds the old ones. Raises what the changed code raises while it is loaded, and NotPutIn.
    """
    old, new = ast.parse(before).body, ast.parse(after).body
    if len(old) != len(new):
        raise NotPutIn(f"{module.__name__}: another number of statements")
    names: set[str] = set()
    for was, now in zip(old, new, strict=True):
        if ast.dump(was) != ast.dump(now) or names & set(_taken_when_loaded(now)):
            names |= _run(module, now)
    forget(module.__name__.split(".")[0])


def forget(package: str) -> None:
    """Empty every cache that a function of a package keeps of its results."""
    for each in gc.get_objects():
        if isinstance(each, _lru_cache_wrapper) and each.__module__.split(".")[0] == package:
            each.cache_clear()


def _run(module: ModuleType, statement: ast.stmt) -> set[str]:
    """Run one statement again; return the names whose values are others now."""
    known = vars(module)
    held = dict(known)
    exec(compile(ast.Module([statement], []), str(module.__file__), "exec"), known)
    fresh = {name for name in known if known[name] is not held.get(name)}
    for name in fresh:
        old, new = held.get(name), known[name]
        if isinstance(old, type) or callable(old):
            _change(old, new)
            known[name] = old
        else:
            _everywhere(name, old, new)
    return fresh


def _change(old: Any, new: Any) -> None:
    if isinstance(old, type):
        for name, value in vars(new).items():
            if name not in OF_EVERY_CLASS and not isinstance(value, MemberDescriptorType):
                with suppress(AttributeError, TypeError):
                    setattr(old, name, value)
        return
    old, new = _innermost(old), _innermost(new)
    try:
        old.__code__, old.__defaults__, old.__kwdefaults__ = new.__code__, new.__defaults__, new.__kwdefaults__
    except ValueError as error:
        raise NotPutIn(f"{old.__qualname__}: {error}") from error


def _innermost(function: Any) -> FunctionType:
    while hasattr(function, "__wrapped__"):
        function = function.__wrapped__
    if not isinstance(function, FunctionType):
        raise NotPutIn(f"{function!r} is no function in Python")
    return function


def _everywhere(name: str, old: Any, new: Any) -> None:
    for module in list(sys.modules.values()):
        held = getattr(module, "__dict__", None) or {}
        names = [name] if isinstance(old, SHARED_BY_ALL) else list(held)
        for each in names:
            if each in held and held[each] is old:
                held[each] = new


def _taken_when_loaded(statement: ast.stmt) -> Iterator[str]:
    """Yield the names whose values a statement takes as the module is loaded: not those inside of functions."""
    waiting: list[ast.AST] = [statement]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            yield node.id
        if isinstance(node, ast.FunctionDef):
            waiting += [*node.decorator_list, *node.args.defaults, *filter(None, node.args.kw_defaults)]
        elif not isinstance(node, ast.Lambda):
            waiting += ast.iter_child_nodes(node)

"""No number without a source: every constant of the physics is cited, and none hides in a function."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

import stockcheck.physics
from stockcheck.physics.quantity import Constant, Interval

#: What a formula may say without a source: counting, halving and squaring by algebra, powers of ten as such.
PLAIN = {-1, 0, 1, 2, 3, 4, 10, 0.5}

MODULES = sorted(module.name for module in pkgutil.iter_modules(stockcheck.physics.__path__))
SOURCED = [name for name in MODULES if name != "quantity"]


def _module(name: str) -> ModuleType:
    return importlib.import_module(f"stockcheck.physics.{name}")


def _numbers(value: object) -> Iterator[object]:
    """The leaves of a module-level value: through mappings, sequences and named tuples."""
    if isinstance(value, dict):
        for item in value.values():
            yield from _numbers(item)
    elif isinstance(value, Interval):
        yield value
    elif isinstance(value, tuple | list | set | frozenset):
        for item in value:
            yield from _numbers(item)
    else:
        yield value


def _is_count(number: object) -> bool:
    """A whole number of atoms or ions in a formula, say."""
    return isinstance(number, int) and number in PLAIN


def _tree(module: ModuleType) -> ast.Module:
    return ast.parse(Path(module.__file__ or "").read_text(encoding="utf-8"))


def _derived(module: ModuleType) -> set[str]:
    """Names set by an expression without a number of its own: worked out once from cited constants."""
    names: set[str] = set()
    for statement in _tree(module).body:
        targets = statement.targets if isinstance(statement, ast.Assign) else []
        if isinstance(statement, ast.AnnAssign) and statement.value is not None:
            targets = [statement.target]
        literals = {
            node.value
            for node in ast.walk(statement)
            if isinstance(node, ast.Constant) and isinstance(node.value, int | float)
        }
        if literals <= PLAIN:
            names |= {target.id for target in targets if isinstance(target, ast.Name)}
    return names


@pytest.mark.parametrize("name", SOURCED)
def test_every_module_level_number_is_a_constant_with_a_source(name: str) -> None:
    module = _module(name)
    derived = _derived(module)
    for label, value in vars(module).items():
        if not label.lstrip("_").isupper():
            continue
        for number in _numbers(value):
            if isinstance(number, bool | str) or not isinstance(number, int | float | Interval):
                continue
            if not isinstance(number, Constant) and (label in derived or _is_count(number)):
                continue
            assert isinstance(number, Constant), f"{name}.{label} holds the bare number {number}"
            assert number.source.strip(), f"{name}.{label} has no source"
            assert number.unit.strip(), f"{name}.{label} has no unit"
            assert number.low <= number <= number.high, f"{name}.{label} lies outside its own interval"


@pytest.mark.parametrize("name", SOURCED)
def test_no_bare_number_in_a_function(name: str) -> None:
    for function in ast.walk(_tree(_module(name))):
        if not isinstance(function, ast.FunctionDef):
            continue
        for node in ast.walk(function):
            if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
                if isinstance(node.value, bool):
                    continue
                assert node.value in PLAIN, (
                    f"{name}.py:{node.lineno} in {function.name}: {node.value} needs a name and a source"
                )


def test_the_walk_finds_the_models() -> None:
    assert {"mass", "feeding", "nitrogen", "ammonia", "nitrification", "uptake", "nitrate"} <= set(SOURCED)


@pytest.mark.parametrize("name", SOURCED)
def test_physics_imports_nothing_but_itself_and_the_standard_library(name: str) -> None:
    allowed = {"__future__", "collections", "dataclasses", "functools", "itertools", "math", "typing", "enum"}
    for node in ast.walk(_tree(_module(name))):
        if isinstance(node, ast.ImportFrom):
            root = node.module or ""
            assert root.startswith("stockcheck.physics") or root.split(".")[0] in allowed, f"{name}: {root}"
        elif isinstance(node, ast.Import):
            for alias in node.names:
                assert alias.name.split(".")[0] in allowed, f"{name}: {alias.name}"

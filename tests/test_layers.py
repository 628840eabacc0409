"""Each layer imports only from the rows above it."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import recommender

PACKAGE = Path(recommender.__file__).parent
ROWS = (
    {"ground"},
    {"reading"},
    {"facts", "bench"},
    {"logic", "metrology", "mechanics"},
    {"rulebook"},
    {"deriving"},
    {"deciding"},
    {"advice"},
    {"records", "asking"},
    {"trials", "checking"},
    {"account"},
    {"cli"},
    {"__main__"},
)
ROW_OF = {name: row for row, names in enumerate(ROWS) for name in names}
WITHOUT_NUMPY = {"ground", "reading", "facts", "bench", "logic", "rulebook"}
MODULES = sorted(PACKAGE.rglob("*.py"))


def package_of(module: Path) -> str:
    """Return the layer a module belongs to; the package's own `__init__` belongs to none."""
    return module.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imports(module: Path) -> Iterator[str]:
    """Yield every dotted name a module imports, also inside functions and type-checking blocks."""
    for node in ast.walk(ast.parse(module.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (each.name for each in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = _relative(module, node.level) if node.level else ""
            base = ".".join(part for part in (start, node.module) if part)
            yield from (f"{base}.{each.name}" for each in node.names)


def _relative(module: Path, level: int) -> str:
    parts = ("recommender", *module.relative_to(PACKAGE).parts)
    return ".".join(parts[: len(parts) - level])


def trespasses(module: Path) -> list[str]:
    """Return the layers a module imports that are not above its own."""
    own = package_of(module)
    used = {name.split(".")[1] for name in imports(module) if name.startswith("recommender.")} & ROW_OF.keys()
    return sorted(name for name in used if name != own and ROW_OF[name] >= ROW_OF[own])


@pytest.mark.parametrize("module", MODULES, ids=lambda each: each.relative_to(PACKAGE).as_posix())
def test_a_module_imports_only_from_rows_above(module: Path) -> None:
    if module == PACKAGE / "__init__.py":
        assert not [name for name in imports(module) if name.startswith("recommender")]
        return
    assert package_of(module) in ROW_OF, "an unlisted module: give it a row"
    assert trespasses(module) == []


@pytest.mark.parametrize("layer", sorted(WITHOUT_NUMPY))
def test_light_layers_stay_without_numpy(layer: str) -> None:
    users = [module.name for module in MODULES if package_of(module) == layer and _uses(module, "numpy")]
    assert users == []


def test_only_the_reader_knows_yaml() -> None:
    assert [module.relative_to(PACKAGE).as_posix() for module in MODULES if _uses(module, "yaml")] == [
        "reading/yaml_reader.py"
    ]


def test_the_package_needs_no_scipy() -> None:
    assert [module.name for module in MODULES if _uses(module, "scipy")] == []


def _uses(module: Path, library: str) -> bool:
    return any(name.split(".")[0] == library for name in imports(module))


@pytest.mark.parametrize(
    ("place", "line", "expected"),
    [
        ("ground/new.py", "from recommender.reading.files import read_bytes", ["reading"]),
        ("bench/new.py", "from recommender import facts", ["facts"]),
        ("bench/new.py", "def f() -> None:\n    import recommender.cli.app", ["cli"]),
        ("bench/new.py", "from ..logic import leaf", ["logic"]),
        ("advice.py", "from recommender.records.store import keep", ["records"]),
        ("deciding/new.py", "from recommender.ground.place import Place", []),
        ("deciding/new.py", "from recommender.deciding.run import run", []),
    ],
)
def test_a_trespass_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, place: str, line: str, expected: list[str]
) -> None:
    monkeypatch.setitem(globals(), "PACKAGE", tmp_path / "recommender")
    module = tmp_path / "recommender" / place
    module.parent.mkdir(parents=True)
    module.write_text(line)
    assert trespasses(module) == expected

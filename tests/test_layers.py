"""Which way the arrows point, and how large modules and functions may be."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent / "stash"
MODULES = sorted(path.relative_to(ROOT) for path in ROOT.rglob("*.py"))

#: Packages of values: they know nothing of people's words.
VALUES = ("planning", "matching", "costing", "requirements", "stock", "trade", "measures")
#: What each package may import of the others, beside itself and `stash.errors`.
ARROWS: dict[str, tuple[str, ...]] = {
    "errors": ("measures.mass",),
    "measures": (),
    "trade": ("measures",),
    "stock": ("trade", "measures"),
    "costing": ("stock", "trade", "measures"),
    "requirements": ("trade", "measures"),
    "matching": ("requirements", "stock", "trade", "measures"),
    "planning": ("matching", "requirements", "stock", "trade", "measures"),
    "store": ("matching.lots.shelf", "requirements", "stock", "measures"),
    "parsing": VALUES,
    "rendering": VALUES,
    "actions": (
        "store",
        "parsing.names",
        "planning",
        "matching",
        "costing",
        "requirements",
        "stock",
        "trade",
        "measures",
    ),
    "exchange": (
        "parsing",
        "rendering",
        "actions",
        "matching",
        "requirements",
        "stock",
        "trade",
        "measures",
    ),
    "cli": ("exchange", "parsing", "rendering", "actions"),
}
#: Where a library may be imported at all; all others: nowhere.
HOMES: dict[str, tuple[str, ...]] = {
    "sqlalchemy": ("store/",),
    "alembic": ("store/upgrade.py",),
    "pint": ("parsing/quantities.py",),
    "rapidfuzz": ("parsing/names.py",),
    "openpyxl": ("exchange/",),
    "typer": ("cli/",),
    "click": ("cli/",),
    "platformdirs": ("cli/",),
    "highspy": ("planning/optimiser/solver.py",),
}
#: What takes long to load and must wait for the command that needs it.
HEAVY = ("pint", "sqlalchemy", "alembic", "rapidfuzz", "openpyxl", "highspy")


def tree(module: Path) -> ast.Module:
    return ast.parse((ROOT / module).read_text("utf-8"))


def package(module: Path) -> str:
    return module.parts[0].removesuffix(".py")


def imported(node: ast.AST) -> Iterator[str]:
    """The full names of what a node imports, `from a import b` as a.b."""
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        assert node.level == 0, "imports say where they go"
        yield from (f"{node.module}.{alias.name}" for alias in node.names)


def all_imports(module: Path) -> set[str]:
    return {name for node in ast.walk(tree(module)) for name in imported(node)}


def imports_for_types(module: Path) -> set[str]:
    """What is imported for the type checker alone: names of answers that are only passed on."""
    return {
        name
        for node in ast.walk(tree(module))
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        for child in ast.walk(node)
        for name in imported(child)
    }


def imports_on_load(module: Path) -> set[str]:
    """What importing the module imports: not what its functions do, nor what only types need."""
    found: set[str] = set()
    waiting: list[ast.AST] = [*tree(module).body]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            continue
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            continue
        found.update(imported(node))
        waiting.extend(ast.iter_child_nodes(node))
    return found


def within(module: Path, homes: tuple[str, ...]) -> bool:
    return any(module.as_posix().startswith(home) for home in homes)


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_arrows_point_the_allowed_way(module: Path) -> None:
    if module.name == "__init__.py" and len(module.parts) == 1:
        assert not {name for name in all_imports(module) if name.startswith("stash")}
        return
    allowed = (*ARROWS[package(module)], package(module), "errors")
    names = all_imports(module) - (imports_for_types(module) if package(module) == "cli" else set())
    for name in sorted(names):
        if name.startswith("stash."):
            wanted = name.removeprefix("stash.") + "."
            assert any(wanted.startswith(f"{one}.") for one in allowed), name


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_a_library_lives_in_one_place(module: Path) -> None:
    for name in sorted(all_imports(module)):
        library = name.partition(".")[0]
        if library != "stash" and library not in sys.stdlib_module_names:
            assert within(module, HOMES.get(library, ())), name


@pytest.mark.parametrize("module", [m for m in MODULES if package(m) == "measures"], ids=str)
def test_measures_need_the_standard_library_alone(module: Path) -> None:
    libraries = {name.partition(".")[0] for name in all_imports(module)} - {"stash"}
    assert libraries <= {*sys.stdlib_module_names}


def test_starting_a_command_loads_nothing_heavy() -> None:
    """Followed from `stash.cli` through everything that importing it imports."""
    waiting = [m for m in MODULES if package(m) == "cli"]
    seen: set[Path] = set()
    while waiting:
        module = waiting.pop()
        if module in seen:
            continue
        seen.add(module)
        for name in imports_on_load(module):
            library = name.partition(".")[0]
            assert library not in HEAVY, f"{module} loads {name}"
            waiting += [m for m in modules_of(name) if m not in seen]


def modules_of(name: str) -> list[Path]:
    """The modules that importing a name runs: of `stash.a.b.c` whichever of them are modules."""
    parts = name.split(".")
    if parts[0] != "stash":
        return []
    found = [Path("__init__.py")]
    for end in range(2, len(parts) + 1):
        folder = Path(*parts[1:end])
        found += [m for m in (folder / "__init__.py", folder.with_suffix(".py")) if m in MODULES]
    return found


def test_packages_do_not_go_round_in_circles() -> None:
    graph: dict[str, set[str]] = {}
    for module in MODULES:
        names = [n.split(".")[1] for n in imports_on_load(module) if n.startswith("stash.")]
        graph.setdefault(package(module), set()).update(n for n in names if n != package(module))
    for start in sorted(graph):
        reached: set[str] = set()
        waiting = [*graph[start]]
        while waiting:
            one = waiting.pop()
            if one not in reached:
                reached.add(one)
                waiting += graph.get(one, ())
        assert start not in reached, f"{start} imports itself by way of {sorted(reached)}"


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_no_module_is_over_400_lines(module: Path) -> None:
    assert len((ROOT / module).read_text("utf-8").splitlines()) <= 400


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_no_function_is_over_60_lines(module: Path) -> None:
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno
            lines = node.end_lineno - node.lineno + 1
            assert lines <= 60, f"{node.name} has {lines} lines"


def test_nine_functions_in_ten_are_under_25_lines_and_half_under_8() -> None:
    lengths = sorted(
        (node.end_lineno or 0) - node.lineno + 1
        for module in MODULES
        if package(module) != "cli"  # a command's options are its signature
        for node in ast.walk(tree(module))
        if isinstance(node, ast.FunctionDef)
    )
    assert lengths[len(lengths) * 9 // 10] < 25
    assert lengths[len(lengths) // 2] < 10


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_a_function_takes_at_most_six_things_by_place(module: Path) -> None:
    """The aim is five, and a dataclass beyond; a command's options are its signature."""
    if package(module) == "cli":
        return
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.FunctionDef):
            places = [a.arg for a in node.args.args if a.arg not in ("self", "cls")]
            assert len(places) <= 6, node.name

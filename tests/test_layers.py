"""Which way the arrows point, where words may stand, and how large modules and functions are."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent / "stash"
MODULES = sorted(path.relative_to(ROOT) for path in ROOT.rglob("*.py"))

#: Packages of values: they know nothing of people's words.
VALUES = ("planning", "matching", "costing", "requirements", "stock", "trade", "measures")
#: What each package may import of the others, beside itself and `stash.errors`.
ARROWS: dict[str, tuple[str, ...]] = {
    "errors": ("measures.mass", "measures.note"),
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
    "actions": ("store", "parsing.names", *VALUES),
    "exchange": ("parsing", "rendering", "actions", *VALUES),
    "web": ("exchange", "parsing", "rendering", "actions"),
    "cli": ("web", "exchange", "parsing", "rendering", "actions"),
    "__main__": ("cli",),
}
#: Packages that may name for the type checker what they only pass on or show.
NAME_ANSWERS = {"cli": VALUES, "web": VALUES, "rendering": ("actions",)}
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
    "starlette": ("web/",),
    "jinja2": ("web/",),
    "markupsafe": ("web/",),
    "uvicorn": ("web/serve.py",),
    "segno": ("web/qr.py",),
}
#: What takes long to load and must wait for the command that needs it.
HEAVY = ("pint", "sqlalchemy", "alembic", "rapidfuzz", "openpyxl", "highspy", "stash.web")
#: Packages that speak to people; sheets and files are read and written by people too.
SPEAK = ("rendering", "cli", "web", "exchange")
#: Three words in a row.
SENTENCE = re.compile(r"[^\W\d_']{2,}(?:[,:;]? +[^\W\d_]['\w]*){2,}")
#: What SQLite reads.
SQL = re.compile(
    r"\s*(SELECT|INSERT|DELETE|CREATE|DROP|PRAGMA|UPDATE|ATTACH|BEGIN|[a-z_]+ (BETWEEN|[<>]))"
)


@cache
def tree(module: Path) -> ast.Module:
    return ast.parse((ROOT / module).read_text("utf-8"))


def package(module: Path) -> str:
    return module.parts[0].removesuffix(".py")


def imported(nodes: Iterable[ast.AST]) -> Iterator[str]:
    """The full names of what nodes import, `from a import b` as a.b."""
    for node in nodes:
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports say where they go"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


@cache
def all_imports(module: Path) -> frozenset[str]:
    return frozenset(imported(ast.walk(tree(module))))


def for_types(node: ast.AST) -> bool:
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)


def imports_for_types(module: Path) -> set[str]:
    """What is imported for the type checker alone: names of answers that are only passed on."""
    return {
        name
        for node in ast.walk(tree(module))
        if for_types(node)
        for name in imported(ast.walk(node))
    }


def imports_on_load(module: Path) -> set[str]:
    """What importing the module imports: not what its functions do, nor what only types need."""
    found: set[str] = set()
    waiting: list[ast.AST] = [*tree(module).body]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda) or for_types(node):
            continue
        found.update(imported([node]))
        waiting.extend(ast.iter_child_nodes(node))
    return found


def within(name: str, homes: Iterable[str]) -> bool:
    return any(f"{name}.".startswith(f"{home}.") for home in homes)


def test_arrows_point_the_allowed_way() -> None:
    wrong = []
    for module in MODULES:
        if module == Path("__init__.py"):
            continue
        home = package(module)
        typed = imports_for_types(module) if home in NAME_ANSWERS else set()
        for name in all_imports(module):
            if name.startswith("stash."):
                allowed = (*ARROWS[home], home, "errors")
                allowed += NAME_ANSWERS[home] if name in typed else ()
                if not within(name.removeprefix("stash."), allowed):
                    wrong.append(f"{module}: {name}")
    assert wrong == []


def test_a_library_lives_in_one_place() -> None:
    wrong = [
        f"{module}: {name}"
        for module in MODULES
        for name in all_imports(module)
        if (library := name.partition(".")[0]) not in ("stash", *sys.stdlib_module_names)
        and not any(module.as_posix().startswith(home) for home in HOMES.get(library, ()))
    ]
    assert wrong == []


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
            assert name.partition(".")[0] not in HEAVY, f"{module} loads {name}"
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


def home_of(name: str) -> Path | None:
    """The module that a full name is found in."""
    found = modules_of(name)
    return found[-1] if found else None


def test_nothing_goes_round_in_circles() -> None:
    """Neither packages, nor the folders and modules that lie beside each other in one."""
    for folder in ("", *sorted({package(m) for m in MODULES if len(m.parts) > 1})):
        graph = among(Path(folder))
        for start in sorted(graph):
            reached: set[str] = set()
            waiting = [*graph[start]]
            while waiting:
                one = waiting.pop()
                if one not in reached:
                    reached.add(one)
                    waiting += graph.get(one, ())
            assert start not in reached, f"{folder}/{start} by way of {sorted(reached)}"


def among(folder: Path) -> dict[str, set[str]]:
    """What each folder or module right in a folder imports of the others."""
    depth = len(folder.parts)
    inside = [m for m in MODULES if m.parts[:depth] == folder.parts and m.name != "__init__.py"]
    graph: dict[str, set[str]] = {}
    for module in inside:
        start = module.parts[depth]
        for name in imports_on_load(module):
            other = home_of(name)
            if other in inside and other.parts[depth] != start:
                graph.setdefault(start, set()).add(other.parts[depth])
    return graph


def literals(module: Path) -> Iterator[tuple[int, str]]:
    """Texts in the code with their lines; not docstrings, nor tables that stand at the margin."""
    body = tree(module)
    skipped = {id(node.value) for node in ast.walk(body) if isinstance(node, ast.Expr)}
    if package(module) in ("parsing", "trade"):
        for node in body.body:
            if isinstance(node, ast.Assign | ast.AnnAssign):
                skipped |= {id(inner) for inner in ast.walk(node)}
    for node in ast.walk(body):
        if isinstance(node, ast.JoinedStr):
            parts = [p.value if isinstance(p, ast.Constant) else "0" for p in node.values]
            skipped |= {id(p) for p in node.values}
            if id(node) not in skipped:
                yield node.lineno, "".join(map(str, parts))
    for node in ast.walk(body):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in skipped
        ):
            yield node.lineno, node.value


def test_no_sentence_stands_below_the_border() -> None:
    wrong = [
        f"{module}:{line}: {text[:80]}"
        for module in MODULES
        if package(module) not in SPEAK
        for line, text in literals(module)
        if SENTENCE.search(text) and not SQL.match(text)
    ]
    assert wrong == []


def functions(module: Path) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def lines_of(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    return (node.end_lineno or 0) - node.lineno + 1


def test_modules_and_functions_are_short() -> None:
    long = [m for m in MODULES if len((ROOT / m).read_text("utf-8").splitlines()) > 400]
    lengthy = [f"{m}: {f.name}" for m in MODULES for f in functions(m) if lines_of(f) > 60]
    # a command's options are its signature
    lengths = sorted(lines_of(f) for m in MODULES if package(m) != "cli" for f in functions(m))

    assert long == []
    assert lengthy == []
    assert lengths[len(lengths) * 9 // 10] < 25
    assert lengths[len(lengths) // 2] < 10


def test_a_function_takes_at_most_six_things_by_place() -> None:
    """The aim is five, and a dataclass beyond; a command's options are its signature."""
    wrong = [
        f"{module}: {one.name}"
        for module in MODULES
        if package(module) != "cli"
        for one in functions(module)
        if len([a for a in one.args.args if a.arg not in ("self", "cls")]) > 6
    ]
    assert wrong == []


def test_no_name_means_two_things_in_one_package() -> None:
    """Thicknesses and public functions; a module of an answer may have its keys, rows and text."""
    shared = {"register", "keys", "rows", "text"}
    found: dict[tuple[str, str], list[Path]] = {}
    for module in MODULES:
        for node in tree(module).body:
            named = isinstance(node, ast.ClassDef | ast.FunctionDef)
            if named and not node.name.startswith("_") and node.name not in shared:
                found.setdefault((package(module), node.name), []).append(module)
    assert {k: v for k, v in found.items() if len(v) > 1} == {}

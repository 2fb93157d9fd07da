"""Who may import whom (design: one way only), and what a command that only checks must not load."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "harnessdoc"

STUDY = {"model", "tables", "layouts", "reading", "routing", "electrics"}
PAPER = {"model", "tables", "layouts", "sheet", "electrics", "routing", "filenames"}
MAY_IMPORT: dict[str, set[str]] = {
    "model": set(),
    "filenames": set(),
    "outfolder": set(),
    "starter": set(),
    "tables": {"model"},
    "layouts": {"model"},
    "reading": {"model", "tables", "layouts"},
    "routing": {"model", "tables"},
    "electrics": {"model", "tables", "routing"},
    "checks": STUDY,
    "sheet": {"model", "layouts"},
    "registers": {"model", "tables", "routing", "electrics"},
    "schedules": PAPER | {"registers"},
    "drawing": PAPER,
    "labels": PAPER,
    "records": PAPER | {"registers", "schedules", "drawing", "labels", "checks"},
    "changes": STUDY | PAPER | {"registers", "schedules", "drawing", "labels", "records", "checks"},
    "products": STUDY | PAPER | {"checks", "registers", "schedules", "drawing", "labels", "records", "changes"},
    "pack": STUDY | PAPER
    | {"checks", "registers", "schedules", "drawing", "labels", "records", "products", "outfolder"},
    "intake": STUDY | {"outfolder", "filenames"},
    "commands": STUDY | PAPER
    | {"checks", "registers", "schedules", "drawing", "labels", "records", "changes", "products", "outfolder", "pack"}
    | {"starter", "intake"},
    "cli": {"commands"},
    "__main__": {"cli"},
    "__init__": set(),
}  # fmt: skip
"""Room to the rooms it may import; its own is always allowed."""


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(path: Path) -> set[str]:
    """Rooms that a module imports, anywhere in it: at the top, in functions, for types only."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: a relative import"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        else:
            continue
        for name in names:
            parts = name.split(".")
            if parts[0] == "harnessdoc" and parts[1:] and not parts[1].startswith("__"):
                found.add(parts[1])
    return found


MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_go_one_way(path: Path) -> None:
    here = room(path)
    assert here in MAY_IMPORT, f"{here} is not in the table of this test"
    assert imported(path) - {here} <= MAY_IMPORT[here]


def test_the_table_has_no_loop() -> None:
    """Each room stands above all that it imports."""
    above: dict[str, set[str]] = {}
    left = dict(MAY_IMPORT)
    while left:
        ready = [name for name, needs in left.items() if needs - {name} <= set(above)]
        assert ready, f"a loop among {sorted(left)}"
        for name in ready:
            above[name] = left.pop(name)


def test_only_the_commands_print_or_exit() -> None:
    for path in MODULES:
        if room(path) in ("commands", "cli", "__main__"):
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                assert called not in ("print", "exit", "quit", "sys.exit", "os._exit", "click.echo"), path


def loaded_by(code: str) -> set[str]:
    """Top names of all modules that a fresh interpreter holds after the code."""
    script = f"{code}\nimport sys\nprint('\\n'.join({{name.split('.')[0] for name in sys.modules}}))"
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, cwd=ROOT, check=True)
    return set(run.stdout.split())


HEAVY = {"cairocffi", "cairosvg", "svgwrite", "qrcode", "jinja2", "fontTools", "pypdf", "numpy", "PIL", "openpyxl"}


def test_the_help_loads_nothing_heavy() -> None:
    loaded = loaded_by("import harnessdoc.cli")
    assert "click" in loaded
    assert not loaded & (HEAVY | {"pydantic", "pydantic_core", "yaml"})


def test_a_check_loads_no_drawing_library() -> None:
    code = (
        "from click.testing import CliRunner\nfrom harnessdoc.cli import main\n"
        "run = CliRunner().invoke(main, ['check', 'tests/data/small'])\nassert run.exit_code == 0, run.output"
    )
    loaded = loaded_by(code)
    assert "yaml" in loaded
    assert not loaded & (HEAVY | {"pydantic"})

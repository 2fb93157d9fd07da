"""The wheel carries what the tool reads: layouts, fonts, tables. Built and installed elsewhere.

Needs the network only to fetch the build backend.
"""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
_NO_NETWORK = ("No matching distribution", "Could not find a version", "ConnectionError", "Name or service")
_ASK = """
import sys
sys.path[:0] = {paths!r}
import harnessdoc
from harnessdoc import layouts
print(harnessdoc.__file__)
for kind in layouts.KINDS:
    for name in layouts.names(kind):
        print(kind, name, layouts.find(kind, name))
from harnessdoc.sheet.lettering import text_width_mm
from harnessdoc.sheet.typeface import font_face_css, font_file
print("fonts", font_file(True).is_file(), len(font_face_css("abc", False)) > 1000, text_width_mm("abc", 2.5) > 1)
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel into a folder of its own."""
    out = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--quiet", "--wheel-dir", str(out), str(ROOT)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    if done.returncode and any(words in done.stderr for words in _NO_NETWORK):
        pytest.skip("the build backend cannot be fetched without a network")
    assert done.returncode == 0, done.stderr
    (path,) = out.glob("harnessdoc-*.whl")
    return path


def _ask(paths: list[Path], cwd: Path) -> list[str]:
    """Ask a Python that knows nothing of the repository what the package finds."""
    script = _ASK.format(paths=[str(path) for path in paths])
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    done = subprocess.run(
        [sys.executable, "-I", "-c", script], cwd=cwd, env=environment, capture_output=True, text=True, timeout=60
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.splitlines()


def test_installed_elsewhere_it_finds_every_layout(wheel: Path, tmp_path: Path) -> None:
    """Every file of the repository's `layouts/` is found in an install that lies elsewhere, and lies in it."""
    target, cwd = tmp_path / "site", tmp_path / "cwd"
    cwd.mkdir()
    command = [sys.executable, "-m", "pip", "install", "--no-deps", "--quiet", "--target", str(target), str(wheel)]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    first, *found, fonts = _ask([target], cwd)
    assert Path(first).is_relative_to(target)
    wanted = {(path.parent.name, path.stem) for path in (ROOT / "layouts").glob("*/*.yaml")}
    assert ("paper", "A4") in wanted
    assert {tuple(line.split(" ", 2)[:2]) for line in found} == wanted
    assert all(Path(line.split(" ", 2)[2]).is_relative_to(target) for line in found)
    assert fonts == "fonts True True True"


def test_the_repository_itself_finds_them_too(tmp_path: Path) -> None:
    """The editable form: the package beside `layouts/`."""
    first, *found, _ = _ask([ROOT], tmp_path)
    assert Path(first).is_relative_to(ROOT)
    assert f"paper A4 {ROOT / 'layouts' / 'paper' / 'A4.yaml'}" in found


def test_the_wheel_carries_both_licences(wheel: Path) -> None:
    """The package's licence and the fonts' travel along."""
    names = zipfile.ZipFile(wheel).namelist()
    assert any(name.endswith("licenses/harnessdoc/LICENSE") for name in names)
    assert "harnessdoc/sheet/fonts/LICENSE" in names
    assert "harnessdoc/sheet/fonts/DejaVuSansCondensed.ttf" in names

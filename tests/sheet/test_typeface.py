"""The carried typeface and what is made from it."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

from harnessdoc.sheet import typeface

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("bold", [False, True])
def test_the_made_web_files_are_not_stale(bold: bool) -> None:
    """Making the subset again gives the carried bytes, so it is deterministic too."""
    made = typeface.subset(typeface.WEB_CHARACTERS & typeface.characters(bold), bold)
    name = "web-bold.woff" if bold else "web-regular.woff"
    assert hashlib.sha256(made).digest() == hashlib.sha256((typeface.FOLDER / name).read_bytes()).digest()


def test_the_font_folder_holds_the_licence() -> None:
    """The licence asks that its text travels with the fonts."""
    text = (typeface.FOLDER / "LICENSE").read_text(encoding="utf-8")
    assert "Bitstream Vera is\na trademark of Bitstream, Inc." in text
    assert "Tavmjong Bah" in text


def test_another_font_is_noticed(tmp_path: Path) -> None:
    """If cairo was woken with a fontconfig that lacks our font, that is said, not drawn in a wrong font."""
    empty = tmp_path / "fonts.conf"
    empty.write_text("<?xml version='1.0'?><fontconfig></fontconfig>", encoding="utf-8")
    script = (
        "import cairocffi\n"
        "context = cairocffi.Context(cairocffi.ImageSurface(cairocffi.FORMAT_A8, 9, 9))\n"
        "context.text_extents('wake fontconfig')\n"
        "from harnessdoc.sheet.typeface import load_into_cairo\n"
        "load_into_cairo()\n"
    )
    environment = {"PYTHONPATH": str(ROOT), "PATH": os.environ["PATH"], "FONTCONFIG_FILE": str(empty)}
    done = subprocess.run([sys.executable, "-c", script], env=environment, capture_output=True, text=True, timeout=60)
    assert done.returncode == 1
    assert "RuntimeError: cairo took another font" in done.stderr


def test_nothing_heavy_is_imported_before_it_is_needed() -> None:
    """Sheets can be imported and measured with neither cairo, fontTools, svgwrite nor pypdf."""
    script = (
        "import sys\n"
        "import harnessdoc.sheet.frame, harnessdoc.sheet.inks, harnessdoc.sheet.output\n"
        "from harnessdoc.sheet.lettering import text_width_mm\n"
        "text_width_mm('W12', 2.5)\n"
        "heavy = {'cairosvg', 'cairocffi', 'fontTools', 'svgwrite', 'pypdf', 'yaml', 'numpy'} & set(sys.modules)\n"
        "assert not heavy, heavy\n"
    )
    subprocess.run([sys.executable, "-c", script], env={"PYTHONPATH": str(ROOT)}, check=True, timeout=60)

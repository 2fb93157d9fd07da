"""Photos come from the harness folder only."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from harnessdoc.model.harness import Circuit, Harness
from harnessdoc.records.photos import photo_form, read_photos

PNG = b"\x89PNG\r\n\x1a\n" + bytes(8)


def with_photos(harness: Harness, *names: str) -> Harness:
    return dataclasses.replace(harness, circuits={"a": Circuit("a", photos=names)})


def test_a_photo_inside_the_folder_is_read(harness: Harness, tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.png").write_bytes(PNG)
    assert read_photos(with_photos(harness, "photos/a.png"), tmp_path) == {"photos/a.png": PNG}


@pytest.mark.parametrize(
    "name", ["../secret.png", "gone.png", ".", "", "nul\x00.png", "leads-out.png", "loop.png", "x" * 5000]
)
def test_what_lies_outside_or_is_no_file_is_left_out(harness: Harness, tmp_path: Path, name: str) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "secret.png").write_bytes(PNG)
    (inside / "leads-out.png").symlink_to(tmp_path / "secret.png")
    (inside / "loop.png").symlink_to(inside / "loop.png")
    assert read_photos(with_photos(harness, name), inside) == {}


def test_an_absolute_path_is_left_out(harness: Harness, tmp_path: Path) -> None:
    (tmp_path / "inside").mkdir()
    (tmp_path / "secret.png").write_bytes(PNG)
    name = str(tmp_path / "secret.png")
    assert read_photos(with_photos(harness, name), tmp_path / "inside") == {}


@pytest.mark.parametrize(
    ("content", "form"),
    [
        (PNG, "png"),
        (b"\xff\xd8\xff\xe1....", "jpg"),
        (b"RIFF\x00\x00\x00\x00WEBPVP8 ", "webp"),
        (b"RIFF\x00\x00\x00\x00WAVE", None),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", None),
        (b"<script>alert(1)</script>", None),
        (b"", None),
    ],
)
def test_pictures_are_told_by_their_bytes(content: bytes, form: str | None) -> None:
    assert photo_form(content) == form

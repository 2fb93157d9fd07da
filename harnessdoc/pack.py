"""Everything a harness gives, in one folder: whole or not at all, with a manifest that is always complete.

The folder is made beside its place under a name of its own, then the manifest is replaced in one step; a reader
finds the former pack or the new one, never half of one. Nothing that is not named in the former manifest is removed."""

from __future__ import annotations

import contextlib
import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from harnessdoc import __version__, products
from harnessdoc.model.finding import Severity
from harnessdoc.outfolder import OutputError, make_folder, write_files
from harnessdoc.products import Files, Job

MANIFEST = "manifest.json"
STAGES: tuple[tuple[str, Callable[[Job], Files]], ...] = (
    ("check report", products.check_files),
    ("harness drawing", products.drawing_files),
    ("circuit strips", products.strip_files),
    ("pin-out sheets", products.face_files),
    ("survey sheets", products.survey_files),
    ("cabinet sheets", products.cabinet_files),
    ("meter sheet", products.meter_files),
    ("labels", products.label_files),
    ("record book", products.record_files),
)


def pack_files(job: Job, stage: Callable[[str], None] = lambda name: None) -> Files:
    """All products and the binder. `stage` is told the name of each part before it is made."""
    files: Files = {}
    parts: list[tuple[str, bytes]] = []
    for name, make in STAGES:
        stage(name)
        made = make(job)
        files.update(made)
        parts += [(name, content) for path, content in made.items() if path.endswith(".pdf")]
    stage("binder")
    files["binder.pdf"] = _binder(job, parts)
    return files


def _binder(job: Job, parts: list[tuple[str, bytes]]) -> bytes:
    from harnessdoc.sheet.output import merge_pdf

    dangers = job.report.count(Severity.DANGER)
    title = f"{job.harness.title.number} binder" + (f", {dangers} danger findings stand" if dangers else "")
    return merge_pdf([(name[:1].upper() + name[1:], content) for name, content in parts], title)


def write_pack(job: Job, files: Files, out: Path) -> Path:
    """Put the pack into `out`, then its manifest; return the pack's folder. Raises OutputError."""
    former = read_manifest(out)
    listed = {path: {"bytes": len(content), "sha256": _hash(content)} for path, content in sorted(files.items())}
    folder = _place(out, f"pack-{job.mark}", files, listed)
    manifest = {
        "harness": job.harness.title.number,
        "title": job.harness.title.title,
        "revision": job.harness.title.revision,
        "content mark": job.mark,
        "made with": f"harnessdoc {__version__}",
        "danger findings": job.report.count(Severity.DANGER),
        "folder": folder.name,
        "files": listed,
    }
    text = json.dumps(manifest, indent=1, ensure_ascii=False) + "\n"
    write_files(out, {MANIFEST: text.encode("utf-8", "replace")})
    if former.get("folder") != folder.name:
        _remove_former(out, former)
    return folder


def read_manifest(out: Path) -> dict[str, Any]:
    """The manifest in an output folder; empty when there is none that can be read."""
    try:
        data = json.loads((out / MANIFEST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return data if isinstance(data, dict) and isinstance(data.get("files"), dict) else {}


def _place(out: Path, name: str, files: Files, listed: dict[str, dict[str, Any]]) -> Path:
    """Make the folder, under the first name that is free or holds these very files already."""
    for attempt in range(1, 1000):
        folder = out / (name if attempt == 1 else f"{name}-{attempt}")
        if not folder.exists():
            make_folder(folder, files)
            return folder
        if _holds(folder, listed):
            return folder
    raise OutputError(f"{out}: holds too many packs called {name}")


def _holds(folder: Path, listed: dict[str, dict[str, Any]]) -> bool:
    return all(_is_ours(folder / path, facts) for path, facts in listed.items())


def _is_ours(path: Path, facts: Any) -> bool:
    """Whether a file is the one that a manifest lists, to the byte."""
    try:
        return path.is_file() and not path.is_symlink() and _hash(path.read_bytes()) == facts["sha256"]
    except (OSError, KeyError, TypeError):
        return False


def _remove_former(out: Path, former: dict[str, Any]) -> None:
    """Take away the former pack's own files as they were written; changed and foreign files stay."""
    name = former.get("folder")
    if not isinstance(name, str) or not name.startswith("pack-") or Path(name).name != name:
        return
    folder = out / name
    inside = folder.resolve()
    for path, facts in former["files"].items():
        target = folder / path
        with contextlib.suppress(OSError, ValueError):
            if target.resolve().is_relative_to(inside) and _is_ours(target, facts):
                target.unlink()
    ours = {folder / above for path in former["files"] for above in Path(path).parents}
    for below in sorted(ours, reverse=True):
        with contextlib.suppress(OSError, ValueError):
            if below.resolve().is_relative_to(inside):
                below.rmdir()


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()

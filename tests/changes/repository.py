"""A git repository made for a test, and files written into it."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path


def git(folder: Path, *arguments: str) -> str:
    """What git says in a folder, with no settings of whoever runs the test."""
    quiet = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1", "LC_ALL": "C"}
    who = {f"GIT_{role}_{what}": "test@example" for role in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    when = {"GIT_AUTHOR_DATE": "2026-05-01T12:00:00Z", "GIT_COMMITTER_DATE": "2026-05-01T12:00:00Z"}
    env = {key: value for key, value in os.environ.items() if not key.startswith("GIT_")}
    run = subprocess.run(
        ["git", *arguments], cwd=folder, env=env | quiet | who | when, capture_output=True, text=True, check=True
    )
    return run.stdout


def committed(folder: Path, files: dict[str, str]) -> str:
    """Write files, commit them with all that is there, and return the revision."""
    if not (folder / ".git").exists():
        folder.mkdir(parents=True, exist_ok=True)
        git(folder, "init", "-q", "-b", "main")
    for name, content in files.items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(content, "utf-8")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "--allow-empty", "-m", "state")
    return git(folder, "rev-parse", "HEAD").strip()

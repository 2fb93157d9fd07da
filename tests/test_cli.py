"""The commands: their words, their exit status, and that nobody ever sees a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from harnessdoc import __version__
from harnessdoc.cli import main

ROOT = Path(__file__).parents[1]
SMALL, AWKWARD, SAMPLE = ROOT / "tests/data/small", ROOT / "tests/data/awkward", ROOT / "sample_harness"
HEAD = "harness: {title: t, number: N}\n"
DOUBT = HEAD + "items: {M1: {is: load}}\n"
FAULT = HEAD + "wires: {W1: {from: X9:1, circuit: a}}\n"
DANGER = HEAD + "lost functions: {a: {}}\n"


def run(*arguments: object) -> Result:
    result = CliRunner().invoke(main, [str(argument) for argument in arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def process(*arguments: object, **variables: str) -> subprocess.CompletedProcess[bytes]:
    words = [os.fsencode(str(argument)) for argument in arguments]
    environment = {**os.environ, **variables}
    return subprocess.run([sys.executable, "-m", "harnessdoc", *words], capture_output=True, env=environment, cwd=ROOT)


def written(folder: Path, text: str) -> Path:
    path = folder / "harness.yaml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", sorted(main.commands))
def test_every_command_s_help_has_an_example(name: str) -> None:
    result = run(name, "--help")
    assert result.exit_code == 0
    assert f"Example: harnessdoc {name}" in " ".join(result.stdout.split())
    assert run(name, "-h").stdout == result.stdout
    assert isinstance(main.commands[name], click.Command)


def test_the_help_names_every_command_and_where_to_start() -> None:
    result = run("--help")
    for name in main.commands:
        assert f"\n  {name} " in result.stdout
    assert "harnessdoc new" in result.stdout
    assert run("--version").stdout.split()[-1] == __version__


def test_new_then_check_finds_nothing(tmp_path: Path) -> None:
    result = run("new", tmp_path / "machine")
    assert (result.exit_code, result.stdout) == (0, f"{tmp_path}/machine/harness.yaml\n")
    checked = run("check", tmp_path / "machine")
    assert checked.exit_code == 0
    assert checked.stdout == (
        "what is live when\n  lamp\n    E1: S1 on\n\n0 danger, 0 fault, 0 doubt; 0 to find out; 0 not verified\n"
    )
    assert "#" in (tmp_path / "machine/harness.yaml").read_text(encoding="utf-8")


def test_new_overwrites_nothing(tmp_path: Path) -> None:
    path = written(tmp_path, "mine")
    result = run("new", tmp_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{path}: is there already; nothing was written\n"
    assert path.read_text(encoding="utf-8") == "mine"
    path.unlink()
    path.symlink_to(tmp_path / "gone")
    assert run("new", tmp_path).exit_code == 2


@pytest.mark.parametrize(
    ("text", "statuses"),
    [(HEAD, (0, 0, 0)), (DOUBT, (0, 0, 1)), (FAULT, (0, 1, 1)), (DANGER, (1, 1, 1))],
    ids=["clean", "doubt", "fault", "danger"],
)
def test_the_exit_status_follows_the_severity_asked(tmp_path: Path, text: str, statuses: tuple[int, ...]) -> None:
    path = written(tmp_path, text)
    asked = [run("check", path, "--at-least", word).exit_code for word in ("danger", "fault", "doubt")]
    assert tuple(asked) == statuses
    assert run("check", path).exit_code == statuses[1]
    assert run("check", path, "--format", "json").exit_code == statuses[1]


@pytest.mark.parametrize("harness", [SMALL, AWKWARD, SAMPLE], ids=lambda path: path.name)
def test_json_and_text_say_the_same(harness: Path) -> None:
    text, data = run("check", harness).stdout, json.loads(run("check", harness, "--format", "json").stdout)
    flat = " ".join(text.split())
    assert set(data) == {"counts", "findings", "not verified", "to find out", "live when"}
    for rows in data["live when"].values():
        for item, when in rows.items():
            assert " ".join("".join(c if c.isprintable() else "?" for c in f"{item}: {when}").split()) in flat
    for severity, count in data["counts"].items():
        assert f"{count} {severity}" in text.splitlines()[-1]
        assert sum(finding["severity"] == severity for finding in data["findings"]) == count
    for finding in data["findings"]:
        shown = "".join(c if c.isprintable() else "?" for c in finding["text"])
        assert " ".join(shown.split()) in flat
        assert finding["reason" if "reason" in finding else "why"]
        assert finding["do"]
        assert finding["source"]
        assert finding["line"] >= 1
    assert f"{len(data['to find out'])} to find out" in text.splitlines()[-1]


def test_findings_come_worst_first_with_place_reason_and_remedy(tmp_path: Path) -> None:
    path = written(
        tmp_path, HEAD + "items: {M1: {is: load}}\nwires: {W1: {from: X9:1, circuit: a}}\nlost functions: {a: {}}\n"
    )
    lines = run("check", path).stdout.splitlines()
    heads = [line for line in lines if line and not line.startswith(" ")]
    assert heads[:3] == ["danger (1)", "fault (1)", "doubt (1)"]
    text = "\n".join(lines)
    for words in (f"{path}:4:18", "[lost-function]", "why: ", "do: ", "source: "):
        assert words in text.replace("\n      ", " ").replace("  ", " ") or words in text


def test_nothing_is_coloured_away_from_a_terminal() -> None:
    assert "\x1b" not in run("check", AWKWARD).stdout


@pytest.mark.parametrize(("variables", "coloured"), [({}, True), ({"NO_COLOR": "1"}, False)])
def test_colour_on_a_terminal_unless_unwanted(tmp_path: Path, variables: dict[str, str], coloured: bool) -> None:
    pty = pytest.importorskip("pty")
    path = written(tmp_path, DANGER)
    try:
        ours, theirs = pty.openpty()
    except OSError as error:
        pytest.skip(f"no terminal to be had here: {error}")
    environment = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "FORCE_COLOR")} | variables
    child = subprocess.Popen(
        [sys.executable, "-m", "harnessdoc", "check", path], stdout=theirs, env=environment, cwd=ROOT
    )
    child.wait(timeout=20)
    os.close(theirs)
    shown = os.read(ours, 65536)
    os.close(ours)
    assert b"danger (1)" in shown
    assert (b"\x1b[" in shown) == coloured


BROKEN = {
    "not YAML": (b"a: [\n", "not valid YAML"),
    "empty": (b"", "the file is empty"),
    "list": (b"- a\n", "the top of the file is a list"),
    "tab": (b"a:\n\tb: c\n", "a tab"),
    "latin": ("a: grün\n".encode("latin-1"), "is not UTF-8"),
    "control": (b"a: \x00\n", "U+0000"),
    "shape": (HEAD.encode() + b"wires: {W1: {size: 6 mm}}\n", "6 mm auto"),
    "include": (HEAD.encode() + b"include: ../../etc/passwd\n", "lies outside the harness's folder"),
    "deep": (b"a: " + b"[" * 100_000, "nested deeper than 40 levels"),
    "bomb": (
        b"a: &a [x,x]\n"
        + b"".join(
            b"a%d: &a%d [%s]\n" % (n, n, b",".join([b"*a" + (b"%d" % (n - 1) if n > 1 else b"")] * 9))
            for n in range(1, 30)
        ),
        "multiply beyond measure",
    ),
}


@pytest.mark.parametrize("name", sorted(BROKEN))
@pytest.mark.parametrize("command", ["check", "pack"])
def test_a_broken_file_is_a_clear_line_and_exit_2(tmp_path: Path, name: str, command: str) -> None:
    raw, words = BROKEN[name]
    (tmp_path / "harness.yaml").write_bytes(raw)
    result = run(command, tmp_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert words in result.stderr
    assert f"{tmp_path}/harness.yaml:" in result.stderr.splitlines()[0]
    assert result.stderr.splitlines()[-1] == f"1 to mend in {tmp_path}; nothing was made"
    assert [path.name for path in tmp_path.iterdir()] == ["harness.yaml"]


@pytest.mark.parametrize("name", ["deep", "control", "shape"])
def test_a_broken_file_in_a_process_of_its_own(tmp_path: Path, name: str) -> None:
    raw, words = BROKEN[name]
    (tmp_path / "harness.yaml").write_bytes(raw)
    result = process("check", tmp_path)
    assert (result.returncode, result.stdout) == (2, b"")
    assert words.encode() in result.stderr
    assert b"Traceback" not in result.stderr


@pytest.mark.parametrize("path", ["no/such", "n" * 300, "\x1b[31mred", "/dev/null", "", "tests"])
@pytest.mark.parametrize("command", ["check", "records"])
def test_odd_paths(command: str, path: str) -> None:
    result = run(command, path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "\x1b" not in result.stderr
    assert result.stderr.endswith("nothing was made\n")


@pytest.mark.skipif(sys.platform != "linux", reason="file names that are no text")
@pytest.mark.parametrize("arguments", [["check"], ["check", "--format", "json"]])
@pytest.mark.parametrize("encoding", ["utf-8:strict", "latin-1:strict", "ascii:strict"])
def test_names_and_letters_that_the_terminal_has_not(tmp_path: Path, arguments: list[str], encoding: str) -> None:
    name = os.fsdecode(b"\xff\xf0\x9f\x9a\x9c.yaml")
    (tmp_path / name).write_text(HEAD + "items: {'🚜': {is: load}}\n", encoding="utf-8")
    result = process(*arguments, "--at-least", "doubt", tmp_path / name, PYTHONIOENCODING=encoding)
    assert (result.returncode, result.stderr) == (1, b"")
    assert b"terminals left open" in b" ".join(result.stdout.split())
    if "json" in arguments:
        assert json.loads(result.stdout)["findings"][0]["about"] == "🚜"


def test_an_unknown_plug_is_named_with_those_there_are() -> None:
    for command in ("faces", "survey"):
        result = run(command, SMALL, "--plug", "X2")
        assert (result.exit_code, result.stdout, result.stderr) == (
            2,
            "",
            "no plug is called 'X2'; known: X1\n",
        )


def test_usage_errors_are_exit_2() -> None:
    for arguments in (["check", "--at-least", "none"], ["check", "a", "b"], ["labels", "--dpi", "1"], ["nope"]):
        result = run(*arguments)
        assert (result.exit_code, result.stdout) == (2, "")


def test_the_current_folder_is_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written(tmp_path, HEAD)
    monkeypatch.chdir(tmp_path)
    assert run("check").exit_code == 0


@pytest.mark.parametrize("out", ["file", "file/below", "/proc/nothing", "o" * 300])
def test_a_folder_that_can_not_be_written(tmp_path: Path, out: str) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    result = run("records", SMALL, "--out", tmp_path / out)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.count("\n") == 1
    assert ": can't be written: " in result.stderr
    assert (tmp_path / "file").read_text(encoding="utf-8") == "mine"


def test_what_was_written_is_told(tmp_path: Path) -> None:
    result = run("records", SMALL, "--out", tmp_path / "o")
    assert result.exit_code == 0
    told = [Path(line) for line in result.stdout.splitlines()]
    assert sorted(told) == sorted(path for path in (tmp_path / "o").rglob("*") if path.is_file())

"""One file's YAML: what stays text, what is refused, and where the finger points."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from harnessdoc.reading import Problem, ReadingError
from harnessdoc.reading.document import MAX_BYTES, load, locate, to_plain

Faults = Callable[..., tuple[Problem, ...]]


def plain(tmp_path: Path, text: str) -> object:
    """A text as lists, dicts and texts, with its problems' texts behind it."""
    path = tmp_path / "a.yaml"
    path.write_bytes(text.encode())
    document = load(path, "a.yaml")
    problems: list[Problem] = []
    value = to_plain(document, document.root, problems)
    return (value, [problem.text for problem in problems]) if problems else value


def fault(tmp_path: Path, raw: bytes | str) -> Problem:
    """The one problem of a file that can't be composed."""
    path = tmp_path / "a.yaml"
    path.write_bytes(raw if isinstance(raw, bytes) else raw.encode())
    with pytest.raises(ReadingError) as caught:
        load(path, "a.yaml")
    assert len(caught.value.problems) == 1
    return caught.value.problems[0]


@pytest.mark.parametrize(
    "written",
    ["08", "8", "NO", "no", "on", "off", "yes", "y", "N", "1e3", "0x1F", "0o17", "87:30", "190:20:30", "1_000", ".5",
     "+1", "1.0", ".inf", ".NaN", "2026-10-11", "true", "=", "12e03", "0b101", "TRUE"],
)  # fmt: skip
def test_what_yaml_would_resolve_stays_text(tmp_path: Path, written: str) -> None:
    expected = {written: [written, written]}
    assert plain(tmp_path, f"{written}: [{written}, '{written}']\n") == expected
    assert plain(tmp_path, f'{written}:\n- {written}\n- "{written}"\n') == expected


def test_only_an_unquoted_null_is_nothing(tmp_path: Path) -> None:
    assert plain(tmp_path, "a: ~\nb: null\nc:\nd: '~'\ne: \"null\"\nf: ''\n") == {
        "a": None, "b": None, "c": None, "d": "~", "e": "null", "f": "",
    }  # fmt: skip


def test_a_null_key_is_its_text(tmp_path: Path) -> None:
    assert plain(tmp_path, "~: a\nnull: b\n") == {"~": "a", "null": "b"}


def test_duplicate_keys_are_named_with_the_first_line(tmp_path: Path) -> None:
    value, problems = plain(tmp_path, "a: 1\nb: {c: 1, c: 2}\na: 3\n")
    assert value == {"a": "1", "b": {"c": "1"}}
    assert problems == ["'c' stands twice; the first is on line 2", "'a' stands twice; the first is on line 1"]


def test_a_quoted_and_a_bare_key_are_the_same_key(tmp_path: Path) -> None:
    _, problems = plain(tmp_path, "08: 1\n'08': 2\n")
    assert problems == ["'08' stands twice; the first is on line 1"]


def test_twenty_thousand_duplicates_end_soon(tmp_path: Path) -> None:
    """Each was once held against all others: 20,000 of them took most of a minute."""
    began = time.monotonic()
    _, problems = plain(tmp_path, "a: {" + "k: v, " * 20_000 + "}\n")
    assert len(problems) == 19_999
    assert time.monotonic() - began < 3


def test_anchors_and_merge_keys_work(tmp_path: Path) -> None:
    text = "base: &b {x: 1, y: 2}\nmore: &m {y: 3, z: 4}\none: {<<: *b, y: 9}\ntwo: {y: 8, <<: [*b, *m]}\nsame: *b\n"
    value = plain(tmp_path, text)
    assert isinstance(value, dict)
    assert value["one"] == {"x": "1", "y": "9"}
    assert value["two"] == {"y": "8", "x": "1", "z": "4"}
    assert value["same"] == {"x": "1", "y": "2"}


def test_a_quoted_merge_key_is_a_name(tmp_path: Path) -> None:
    assert plain(tmp_path, "'<<': a\n") == {"<<": "a"}


def test_a_merge_of_a_text_is_refused(tmp_path: Path) -> None:
    assert plain(tmp_path, "a: {<<: b}\n") == ({"a": {}}, ["`<<:` wants a group of keys"])


LAUGHS = "a0: &a0 [x,x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"a{n}: &a{n} [{','.join([f'*a{n - 1}'] * 10)}]\n" for n in range(1, 40)
)
MERGED = "a0: &a0 {k: v}\n" + "".join(
    f"a{n}: &a{n} {{<<: [{','.join([f'*a{n - 1}'] * 10)}], k{n}: v}}\n" for n in range(1, 12)
)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (LAUGHS, "multiply beyond measure"),
        (MERGED, "multiply beyond measure"),
        ("a: &a [" + "y," * 1000 + "]\nb: [" + "*a," * 5000 + "]\n", "multiply beyond measure"),
        ("a: &a [*a]\n", "an anchor that holds itself"),
        ("a: &a {b: {c: *a}}\n", "an anchor that holds itself"),
        ("a: &a {<<: *a, b: c}\n", "an anchor that holds itself"),
        ("a: &a x\nb: *a\nc: " + "[" * 700 + "]" * 700, "nested deeper than 40 levels"),
        ("a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}]\n" for n in range(1, 3000)), "deeper|beyond"),
        ("a: *b\n", "an alias (*name) without its anchor (&name)"),
    ],
)
def test_anchors_that_explode_are_refused_within_a_second(tmp_path: Path, text: str, words: str) -> None:
    began = time.monotonic()
    problem = fault(tmp_path, text)
    assert time.monotonic() - began < 1
    assert any(word in problem.text for word in words.split("|"))


DEEP = {
    "flow lists": "a: " + "[" * 100_000,
    "flow groups": "a: " + "{" * 100_000,
    "flow groups with keys": "a: " + "{a: " * 100_000,
    "closing brackets in quotes": "a: " + '[ "]", ' * 20_000,
    "closing brackets in remarks": "a: " + "[ # ]\n " * 20_000,
    "dashes": "a:\n " + "- " * 100_000 + "b\n",
    "question marks": "a:\n " + "? " * 100_000 + "b\n",
    "indentation": "a:\n" + "".join(" " * n + "a:\n" for n in range(1, 3000)),
    "a list a line": "a:\n" + "".join(" " * n + "-\n" for n in range(1, 3000)),
    "deep, closed and aliased": "a: &a x\nb: " + "[" * 990 + "*a" + "]" * 990 + "\n",
    "deep and closed": "runs: " + "[" * 990 + "]" * 990 + "\n",
}
SCRIPT = """
import sys
from pathlib import Path
from harnessdoc.reading import ReadingError, read_harness
for path in sys.argv[1:]:
    try:
        read_harness(Path(path))
    except ReadingError as error:
        print(Path(path).name, any("deeper than 40 levels" in p.text for p in error.problems))
"""


def test_deep_nesting_ends_in_a_line_and_not_in_a_crash(tmp_path: Path) -> None:
    """In a process of its own: a parser in C that runs out of stack takes the process with it."""
    paths = []
    for name, text in DEEP.items():
        path = tmp_path / name
        path.write_text("harness: {title: t, number: N}\n" + text)
        paths.append(str(path))
    run = subprocess.run([sys.executable, "-c", SCRIPT, *paths], capture_output=True, text=True, timeout=30)
    assert run.returncode == 0, run.stderr[-500:]
    assert run.stdout.splitlines() == [f"{name} True" for name in DEEP]


def test_brackets_in_remarks_are_no_nesting(tmp_path: Path) -> None:
    """Some thousand unclosed brackets inside texts nest nothing."""
    value = plain(tmp_path, "".join(f"k{n}: 'from [{n}, open'\n" for n in range(3000)))
    assert isinstance(value, dict)
    assert value["k7"] == "from [7, open"


def test_forty_levels_are_enough_and_more_are_said_once(tmp_path: Path) -> None:
    assert plain(tmp_path, "a: " + "[" * 38 + "]" * 38) is not None
    _, problems = plain(tmp_path, "a: " + "[" * 60 + "]" * 60)
    assert problems == ["is nested deeper than 40 levels"]


@pytest.mark.parametrize(
    ("raw", "place", "words"),
    [
        (b"", (1, 1), "the file is empty; `harnessdoc new` writes a starter file"),
        (b"# only\n# remarks\n", (1, 1), "the file is empty"),
        (b"---\n", (1, 1), "the file is empty"),
        (b"\xef\xbb\xbf", (1, 1), "the file is empty"),
        (b"- a\n- b\n", (1, 1), "the top of the file is a list; expected keys such as harness:, items:, wires:"),
        (b"hello\n", (1, 1), "the top of the file is a single text"),
        (b"a: 1\n---\nb: 2\n", (2, 1), "a second document (---) in the file"),
        ("a: 1\nb: grün\n".encode("latin-1"), (2, 6), "is not UTF-8: byte 0xfc; save the file as UTF-8"),
        ("a: 1\nä: ".encode() + b"\xff\n", (2, 4), "is not UTF-8: byte 0xff"),
        ("a: 1\n".encode("utf-16"), (1, 1), "is not UTF-8: byte 0xff"),
        ("a: 1\n".encode("utf-16-be"), (1, 1), "U+0000"),
        (b"a: \xed\xa0\x80\n", (1, 4), "is not UTF-8: byte 0xed"),
        (b"a: 1\nb: x\x00y\n", (2, 5), "holds a character (U+0000) that YAML does not allow"),
        (b"a: 1\nb: \x1b[31m\n", (2, 4), "holds a character (U+001B)"),
        (b"a: 1\nb: \x7f\n", (2, 4), "holds a character (U+007F)"),
        ("a: ü\nbä: \x9f\n".encode(), (2, 5), "holds a character (U+009F)"),
        ("a: \ufffe\n".encode(), (1, 4), "holds a character (U+FFFE)"),
        (b"a:\n\tb: c\n", (2, 1), "a tab; YAML is indented with spaces"),
        (b"a:\n  b:\n  \tc: d\n", (3, 3), "a tab; YAML is indented with spaces"),
        (b"a: b: c\n", (1, 5), "a colon where none can stand; text with `: ` in it wants quotes"),
        (b"a: [b, c\nd: e\n", (2, 2), "a list in [ ] is not closed, or a comma is missing"),
        (b"a: {b: c\n", (2, 1), "a group in { } is not closed, or a comma or quote is missing"),
        (b"a: 'b\n", (2, 1), "the file ends inside a text in quotes"),
        (b"a: @b\n", (1, 4), "put such a text in quotes"),
        (b"a: `b`\n", (1, 4), "put such a text in quotes"),
        (b"a: {b: ?}\n", (1, 8), "a value is missing, or it is a lone ? or -, which wants quotes"),
        (b'a: "\\ud800"\n', (1, 7), "Unicode"),
    ],
)  # fmt: skip
def test_each_broken_file_has_one_clear_line(tmp_path: Path, raw: bytes, place: tuple[int, int], words: str) -> None:
    problem = fault(tmp_path, raw)
    assert words in problem.text
    assert (problem.mark.file, problem.mark.line, problem.mark.column) == ("a.yaml", *place)
    assert "\n" not in problem.text


def test_ten_mebibytes_are_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"a: b\n#" + b"x" * (MAX_BYTES - 6))
    assert MAX_BYTES == 10 * 1024 * 1024
    assert load(path, "a.yaml").root.value
    assert fault(tmp_path, b"a: b\n#" + b"x" * (MAX_BYTES - 5)).text == "is over 10 MiB; split it with include:"


@pytest.mark.parametrize("tag", ["!include wires.yaml", "!!python/object/apply:os.system [id]", "!!set {a}", "!x {}"])
def test_tags_are_refused_at_their_place(tmp_path: Path, tag: str) -> None:
    problem = fault(tmp_path, f"a: 1\nwires: {tag}\n")
    assert problem.text == f"'{tag.split()[0]}' is a tag, and tags mean nothing here; leave it out"
    assert problem.mark.line == 2


def test_an_exclamation_mark_is_no_tag(tmp_path: Path) -> None:
    assert plain(tmp_path, "a: stop!\nb: 'x !y'\nc: [ok !, 'no !']\n") == {
        "a": "stop!", "b": "x !y", "c": ["ok !", "no !"],
    }  # fmt: skip


def test_a_key_that_is_no_text_is_refused(tmp_path: Path) -> None:
    assert plain(tmp_path, "a: {[b]: c, {d: e}: f, g: h}\n") == (
        {"a": {"g": "h"}},
        ["a key must be a plain text", "a key must be a plain text"],
    )


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_line_end_gives_the_same_marks(tmp_path: Path, end: str) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(end.join(["\ufeffa: 1", "b:", "  c: 2", ""]).encode())
    document = load(path, "a.yaml")
    node, found = locate(document.root, ("b", "c"))
    assert found
    assert document.mark(node)[1:] == (3, 6)
    assert document.problem(node, "x").line == "  c: 2"


@pytest.mark.parametrize("separator", ["\u2028", "\u2029", "\x85"])
def test_separators_inside_a_text_keep_the_shown_line_right(tmp_path: Path, separator: str) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(f"a: 'x{separator}y'\nb: here\n".encode())
    document = load(path, "a.yaml")
    node, _ = locate(document.root, ("b",))
    assert document.problem(node, "x").line == "b: here"


def test_what_is_not_there_or_is_a_folder_is_one_line(tmp_path: Path) -> None:
    for path, words in ((tmp_path / "none", "No such file"), (tmp_path, "Is a directory")):
        with pytest.raises(ReadingError, match=words):
            load(path, "a.yaml")


def test_locate_stops_at_the_deepest_node_there(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text("a: {b: [c, d]}\n")
    root = load(path, "a.yaml").root
    assert locate(root, ("a", "b", 1))[0].value == "d"
    node, found = locate(root, ("a", "x", "y"))
    assert (node.start_mark.column, found) == (3, False)
    assert locate(root, ("a", "b", 7))[1] is False

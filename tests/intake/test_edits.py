"""Edits by marks: what is meant is changed, every other byte stays; what is not safe is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.intake.edits import Editor
from harnessdoc.intake.problems import IntakeError

TOP = "format: 1\nharness: {title: T, number: N}\n"


def edit(tmp_path: Path, text: str, *calls: tuple[object, ...]) -> str:
    """The file's text after the edits; each call is a method's name and its arguments."""
    path = tmp_path / "harness.yaml"
    path.write_bytes(text.encode())
    editor = Editor(path)
    for name, *arguments in calls:
        getattr(editor, str(name))(*arguments)
    (edited,) = editor.finish()
    assert edited.before == text.encode()
    assert path.read_bytes() == text.encode(), "nothing is written yet"
    return edited.after.decode()


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("  W1: {from: a, size: 1 mm2}   # why\n", "  W1: {from: a, size: 1 mm2, colour: red/blue}   # why\n"),
        ("  W1: {}\n", "  W1: {colour: red/blue}\n"),
        ("  W1:\n", "  W1: {colour: red/blue}\n"),
        ("  W1:   # known?\n", "  W1: {colour: red/blue}   # known?\n"),
        ("  W1: {colour: unknown, size: '1'}\n", "  W1: {colour: red/blue, size: '1'}\n"),
        ("  W1: {\n   from: a  # x\n  }\n", "  W1: {\n   from: a, colour: red/blue  # x\n  }\n"),
        ("  W1:\n    from: a # x\n\n  # W2\n", "  W1:\n    from: a # x\n    colour: red/blue\n\n  # W2\n"),
        ("  W1:\n    colour: 'unknown' # x\n    to: b\n", "  W1:\n    colour: red/blue # x\n    to: b\n"),
        ("  W1:\n    colour:\n    to: b\n", "  W1:\n    colour: red/blue\n    to: b\n"),
        (
            "  W1:\n    from: a\n    remarks: >-\n      text\n      more\n\n  W2: {}\n",
            "  W1:\n    from: a\n    remarks: >-\n      text\n      more\n    colour: red/blue\n\n  W2: {}\n",
        ),
        ("  W1:\n    from: a", "  W1:\n    from: a\n    colour: red/blue"),
    ],
)
def test_a_key_is_set_in_either_style(tmp_path: Path, before: str, after: str) -> None:
    start = TOP + "# wires\nwires:\n"
    assert edit(tmp_path, start + before, ("set", "wires", "W1", ["colour"], "red/blue")) == start + after


def test_signs_beyond_ascii_and_line_ends_of_windows_stay(tmp_path: Path) -> None:
    """Marks count letters, not bytes; a byte order mark and CRLF stay."""
    before = "\ufeff" + (TOP + "# ünï 😀\nwires:\n  '😀':   {to: b}\n  W1:\n    from: a   # 😀\n").replace("\n", "\r\n")
    after = before.replace("# 😀\r\n", "# 😀\r\n    colour: red\r\n").replace("{to: b}", "{to: b, colour: blue}")
    calls = (("set", "wires", "W1", ["colour"], "red"), ("set", "wires", "😀", ["colour"], "blue"))
    assert edit(tmp_path, before, *calls) == after


def test_a_group_within_an_entry_grows_or_begins(tmp_path: Path) -> None:
    before = (
        TOP
        + 'plugs:\n  X1:\n    face: f\n    legend:  # moulded\n      "1": A # one\n    view: wire side\n'
        + "  X2: {face: f}\n"
    )
    after = TOP + (
        'plugs:\n  X1:\n    face: f\n    legend:  # moulded\n      "1": A # one\n      "2": "+12V"\n'
        "    view: wire side\n  X2: {face: f, legend: {1: A, 2: B}}\n"
    )
    calls = (
        ("set", "plugs", "X1", ["legend", "2"], "+12V"),
        ("set", "plugs", "X2", ["legend", "1"], "A"),
        ("set", "plugs", "X2", ["legend", "2"], "B"),
    )
    assert edit(tmp_path, before, *calls) == after


@pytest.mark.parametrize(
    ("empty", "after"),
    [
        ('["1", "2"]', '["1", "2", 3, 4]'),
        ("[]", "[3, 4]"),
        ('"1"', '["1", 3, 4]'),
    ],
)
def test_a_list_grows(tmp_path: Path, empty: str, after: str) -> None:
    before = TOP + f"plugs:\n  X1: {{face: f, empty: {empty}}} # e\n"
    calls = (("add_to", "plugs", "X1", ["empty"], "3"), ("add_to", "plugs", "X1", ["empty"], "4"))
    assert edit(tmp_path, before, *calls) == before.replace(empty, after)
    without = TOP + "plugs:\n  X1: {face: f}\n"
    assert edit(tmp_path, without, *calls) == without.replace("f}", "f, empty: [3, 4]}")


def test_entries_and_sections_are_added(tmp_path: Path) -> None:
    before = TOP + "wires:\n    W1:\n        from: a # x\n    # the end\n\nreadings:\n- {on: 2026-01-01} # r\n# last\n"
    after = TOP + (
        "wires:\n    W1:\n        from: a # x\n    W2: {from: X4:3, to: unknown}\n    # the end\n\n"
        "readings:\n- {on: 2026-01-01} # r\n- {on: 2026-01-02}\n# last\n\nstubs:\n  X4:3: {length: 60 mm}\n  X4:4: {}\n"
    )
    calls: tuple[tuple[object, ...], ...] = (
        ("add", "wires", "W2", {"from": "X4:3", "to": "unknown"}),
        ("append", "readings", {"on": "2026-01-02"}),
        ("add", "stubs", "X4:3", {"length": "60 mm"}),
        ("add", "stubs", "X4:4", {}),
    )
    assert edit(tmp_path, before, *calls) == after


def test_an_empty_section_is_filled(tmp_path: Path) -> None:
    before = TOP + "stubs:   # none yet\nreadings:\nwires: {}\n"
    after = TOP + 'stubs:   # none yet\n  X4:3: {did: "a: b"}\nreadings:\n  - {on: now}\nwires: {W1: {from: a}}\n'
    calls = (
        ("add", "stubs", "X4:3", {"did": "a: b"}),
        ("append", "readings", {"on": "now"}),
        ("add", "wires", "W1", {"from": "a"}),
    )
    assert edit(tmp_path, before, *calls) == after


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("  W0: &w {from: a}\n  W1: *w\n", "an alias"),
        ("  W1: &w {from: a}\n  W2: *w\n", "an anchor"),
        ("  W0: &w {from: a}\n  W1: {<<: *w, to: b}\n", "by `<<`"),
        ("  W1: {colour: &c unknown}\n  W2: {colour: *c}\n", "an anchor"),
        ("  W1:\n    colour: >-\n      unknown\n", "over several lines"),
        ("  W1: {colour: {a: b}}\n", "over several lines"),
        ("  W1: spare\n", "no group of keys"),
    ],
)
def test_what_is_not_safe_is_refused_with_its_line(tmp_path: Path, text: str, why: str) -> None:
    path = tmp_path / "harness.yaml"
    path.write_text(TOP + "wires:\n" + text, "utf-8")
    with pytest.raises(IntakeError, match=why) as caught:
        Editor(path).set("wires", "W1", ["colour"], "red")
    assert f"{path}:" in str(caught.value)


def test_a_file_changed_meanwhile_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "harness.yaml"
    path.write_text(TOP + "wires: {W1: {}}\n", "utf-8")
    editor = Editor(path)
    editor.set("wires", "W1", ["colour"], "red")
    path.write_text(TOP, "utf-8")
    with pytest.raises(IntakeError, match="changed meanwhile"):
        editor.finish()


def test_of_two_groups_that_end_together_the_inner_grows_first(tmp_path: Path) -> None:
    """Found by random edits: an outer key put in first tears the inner group."""
    before = TOP + "wires:\n  W1:\n    from: a\n    ends:\n      one: x"
    after = before + "\n      two: y\n    colour: red\n  W2: {}"
    calls: tuple[tuple[object, ...], ...] = (
        ("add", "wires", "W2", {}),
        ("set", "wires", "W1", ["colour"], "red"),
        ("set", "wires", "W1", ["ends", "two"], "y"),
    )
    assert edit(tmp_path, before, *calls) == after

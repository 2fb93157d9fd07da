"""Lines that say `fails safe` and do not; the sample is safe, and a copy with the classic wrong is not."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from shutil import copytree

from harnessdoc.checks.rules import single_fault_unsafe
from harnessdoc.checks.run import run_checks
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.reading import read_harness
from tests.electrics.written import SAMPLE, TO_RUN, TO_STOP

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


def test_the_classic_is_a_danger_that_names_the_wires(says: Says) -> None:
    danger, doubt = says(TO_STOP)
    assert isinstance(danger, Finding)
    assert danger.severity is Severity.DANGER
    assert danger.text.startswith(
        "M1 runs on with W3 broken or W4 broken or W5 broken, with S1 dry, where operation says dead and fails safe"
    )
    assert "energise that relay to run" in danger.mend
    assert "swapping the contacts alone only moves the fault" in danger.mend
    assert isinstance(doubt, Finding)
    assert (doubt.severity, "K1 stuck at rest" in doubt.text) == (Severity.DOUBT, True)


def test_energised_to_run_only_the_welded_contact_is_left_as_a_doubt(says: Says) -> None:
    (doubt,) = says(TO_RUN)
    assert isinstance(doubt, Finding)
    assert doubt.severity is Severity.DOUBT
    assert doubt.text == "M1 runs on with K1 stuck pulled, where operation says dead and fails safe (line 22)"


def test_a_line_that_does_not_say_so_is_not_asked(says: Says) -> None:
    assert says(TO_STOP.replace(", fails safe: true", "")) == ()


def test_a_line_that_does_not_hold_is_another_rules(says: Says) -> None:
    text = TO_RUN.replace("{when: {S1: dry}", "{when: {S1: wet}")
    assert says(text) == ()


def found(folder: Path) -> list[Finding]:
    return [
        f for f in run_checks(read_harness(folder), (single_fault_unsafe,)).findings if f.severity is Severity.DANGER
    ]


def test_the_sample_is_safe_and_a_copy_that_stops_by_pulling_is_not(tmp_path: Path) -> None:
    """In the copy the board pulls when pressure is lost and opens the pump's way: energised to stop."""
    assert found(SAMPLE) == []
    copy = copytree(SAMPLE, tmp_path / "wrong")
    changes = {
        "items.yaml": [
            ("normal: 1.2..4 V, no pressure: 0.4..0.6 V", "normal: 0.4..0.6 V, no pressure: 4..4.6 V"),
            ("pulls at: 1.0 V, releases at: 0.8 V", "pulls at: 2.0 V, releases at: 1.8 V"),
        ],
        "wires.yaml": [("W40: {from: K5:NO", "W40: {from: K5:NC"), ("W42: {from: K5:NC", "W42: {from: K5:NO")],
        "harness.yaml": [
            ("B1: no pressure}, live: [P1], dead: [M3]}", "B1: no pressure}, dead: [M3], fails safe: true}")
        ],
    }
    for name, pairs in changes.items():
        text = (copy / name).read_text("utf-8")
        for old, new in pairs:
            assert old in text
            text = text.replace(old, new)
        (copy / name).write_text(text, "utf-8")
    (danger,) = found(copy)
    assert danger.about == "M3"
    assert "no pressure" in danger.text
    assert "W44 broken" in danger.text


def test_what_can_not_be_searched_is_not_verified(says: Says) -> None:
    (said,) = says(TO_RUN.replace("M1: {is: load, ohms: 6 ohm, at: 12 V}", "M1: {is: load}"))
    assert isinstance(said, NotVerified)
    assert said.text == "M1 after single faults: the draw of M1 is not stated"

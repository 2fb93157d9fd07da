"""More copper than a joint's method holds."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


SPLICE = "splices:\n  J1: {{{}}}\nwires:\n{}"


def harness(splice: str, *sizes: str) -> str:
    wires = "".join(f"  W{n}: {{from: J1, to: tail, size: {size}}}\n" for n, size in enumerate(sizes))
    return SPLICE.format(splice, wires)


def test_a_stated_limit(says: Says) -> None:
    (finding,) = says(harness("method: solder, holds: 4 mm2", "2.5 mm2", "2.5 mm2"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.FAULT, 3)
    assert "J1 joins 2.5 + 2.5 mm²" in finding.text
    assert says(harness("method: solder, holds: 5 mm2", "2.5 mm2", "2.5 mm2")) == ()


def test_a_butt_barrel_has_two_sides(says: Says) -> None:
    """A blue barrel takes about 2.5 mm² on each side: two wires of 2.5 pass, 4 does not, nor three of 2.5."""
    assert says(harness("method: crimp, barrel: blue", "2.5 mm2", "2.5 mm2")) == ()
    assert len(says(harness("method: crimp, barrel: blue", "4 mm2", "1 mm2"))) == 1
    assert len(says(harness("method: crimp, barrel: blue", "2.5 mm2", "2.5 mm2", "2.5 mm2"))) == 1


def test_a_closed_end_has_one_side(says: Says) -> None:
    assert len(says(harness("method: closed end, barrel: blue", "2.5 mm2", "2.5 mm2"))) == 1
    assert says(harness("method: closed end, barrel: blue", "1 mm2", "1 mm2")) == ()


def test_stubs_count(says: Says) -> None:
    text = harness("method: closed end, barrel: blue", "1.5 mm2", "1 mm2")
    stub = "plugs: {X4: {face: rect-1x2}}\nstubs: {X4:1: {size: 1.5 mm2, joined at: J1}}\n"
    assert says(text) == ()
    assert len(says(text + stub)) == 1


def test_what_nobody_knows_is_not_verified(says: Says) -> None:
    for text in (harness("method: crimp", "1 mm2", "1 mm2"), harness("barrel: red", "1 mm2", "unknown")):
        assert [type(one) for one in says(text)] == [NotVerified]


def test_a_method_without_a_limit_is_not_judged(says: Says) -> None:
    assert says(harness("method: solder", "16 mm2", "16 mm2")) == ()

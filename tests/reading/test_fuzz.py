"""Whatever stands in a file: a harness or clear problems inside the file, never another end."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from harnessdoc.checks.report_text import as_data, as_text
from harnessdoc.checks.run import run_checks
from harnessdoc.model.content_mark import content_mark
from harnessdoc.model.harness import Harness
from harnessdoc.model.kinds import KINDS
from harnessdoc.reading import Problem, ReadingError, read_harness
from harnessdoc.reading.document import _lines
from harnessdoc.reading.schema import keys_at
from harnessdoc.reading.shapes import LISTED, MAPPED, SECTIONS

KEYS = sorted(
    {key for shape in (*MAPPED.values(), *LISTED.values()) for key in keys_at(shape)}
    | {key for kind in KINDS.values() for key in keys_at(kind)}
    | {"is", "title", "number", "volts", "a", "1", "08", "NO", "<<", "~", ""}
)
WORDS = st.one_of(
    st.sampled_from([
        *KINDS, "S1:1", "K1:87a", "X4:3", "J5", "chassis", "tail", "unknown", "red/black", "gn-ye", "2.5 mm2",
        "14 AWG", "6 mm", "60 mm", "15 A", "0..1 V", "-1", "1e999 A", "nan", "99999999999999999999 mm2", "tab 6.3",
        "ring M6 blue", "2026-10-11", "whole 2026-10-11", "whole", "rect-2x6", "existing", "yes", "1-2", "spare",
        "true", "~", "", ":", "a:",
    ]),
    st.text(max_size=12),
    st.integers(-10, 10**30).map(str),
    st.none(),
)  # fmt: skip
NESTED: Any = st.recursive(
    WORDS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=4),
        st.dictionaries(st.one_of(st.sampled_from(KEYS), st.text(max_size=5)), inner, max_size=5),
    ),
    max_leaves=12,
)
NAMES = st.one_of(st.sampled_from(["S1", "K1", "X4", "X4:3", "J5", "W1", "G1", "F1"]), st.text(max_size=6))


def entities(section: str) -> Any:
    """Plausible entries: known keys with wild values."""
    if section == "items":
        return st.dictionaries(
            NAMES,
            st.sampled_from(sorted(KINDS)).flatmap(
                lambda kind: st.dictionaries(
                    st.sampled_from(keys_at(KINDS[kind]) or ["title"]), NESTED, max_size=3
                ).map(lambda keys: {"is": kind, **keys})
            ),
            max_size=4,
        )
    if section in MAPPED:
        return st.dictionaries(
            NAMES, st.dictionaries(st.sampled_from(keys_at(MAPPED[section])), NESTED, max_size=4), max_size=4
        )
    if section in LISTED:
        return st.lists(st.dictionaries(st.sampled_from(keys_at(LISTED[section])), NESTED, max_size=4), max_size=3)
    return NESTED


FILES = st.fixed_dictionaries(
    {"harness": st.one_of(st.just({"title": "t", "number": "N"}), NESTED)},
    optional={section: entities(section) for section in SECTIONS if section not in ("harness", "include")},
)


def outcome(path: Path) -> Harness | tuple[Problem, ...]:
    """What reading gives: a harness, or problems."""
    try:
        return read_harness(path)
    except ReadingError as error:
        return error.problems


def holds(raw: bytes) -> None:
    """Where a file reads, it can be checked and printed; else each problem lies in the file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "harness.yaml"
        path.write_bytes(raw)
        found = outcome(path)
        assert found == outcome(path)
    if isinstance(found, Harness):
        report = run_checks(found)
        assert as_text(report)
        assert as_data(report)
        assert content_mark(found)
        return
    assert found
    lines = _lines(raw.decode("utf-8", "replace"))
    for problem in found:
        assert 1 <= problem.mark.line <= len(lines)
        assert 1 <= problem.mark.column <= len(lines[problem.mark.line - 1]) + 1
        assert "\n" not in problem.text
        assert "Node(" not in problem.text
        assert "pydantic" not in problem.render()


@settings(max_examples=70, deadline=None, suppress_health_check=list(HealthCheck))
@given(FILES)
def test_plausible_files(data: Any) -> None:
    holds(yaml.safe_dump(data, allow_unicode=True, sort_keys=False).encode("utf-8", "surrogatepass"))


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(NESTED)
def test_any_structure(data: Any) -> None:
    holds(yaml.safe_dump(data, allow_unicode=True, sort_keys=False).encode("utf-8", "surrogatepass"))


@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.one_of(
        st.binary(max_size=60),
        st.text(alphabet="ab:-[]{},&*!|>'\"#%@`?~<\t \n\r\x85\u2028é🚜", max_size=60).map(str.encode),
    )
)
def test_any_bytes(raw: bytes) -> None:
    holds(b"harness: {title: t, number: N}\nwires:\n  " + raw)
    holds(raw)

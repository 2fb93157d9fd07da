"""Permanent keys: they outlive titles, order and revisions, for a label is glued on for years."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from harnessdoc.model.harness import Circuit, End, Harness, Title, Wire
from harnessdoc.model.keys import KEY_FORM, circuit_key, record_address, record_line, record_path

PUMP = Circuit("pump", title="Pump motor")
BASE = Harness(Title("t", "OS-01", records="https://records.example/os-01/"), circuits={"pump": PUMP})


def test_the_key_of_a_label_that_is_glued_on_already() -> None:
    """Base 32 of SHA-256 of "OS-01, newline, pump", worked out with other tools; if this changes, labels lie.

    printf 'OS-01\\npump' | openssl dgst -sha256 -binary | base32 | cut -c1-6"""
    assert circuit_key(BASE, "pump") == "KW2FHE"


def test_titles_order_and_revisions_do_not_change_it() -> None:
    other = Harness(
        Title("another title", "OS-01", revision="Z"),
        circuits={"fan": Circuit("fan"), "pump": replace(PUMP, title="Renamed", does="stirs", remarks="r")},
        wires={"W1": Wire("W1", End(), End(), circuit="pump")},
    )
    assert circuit_key(other, "pump") == circuit_key(BASE, "pump")


def test_another_harness_or_circuit_has_another_key() -> None:
    other = replace(BASE, title=replace(BASE.title, number="OS-02"))
    assert len({circuit_key(BASE, "pump"), circuit_key(BASE, "fan"), circuit_key(other, "pump")}) == 3


def test_a_stated_key_goes_before_the_derived_one() -> None:
    stated = replace(BASE, circuits={"pump": replace(PUMP, key="PUMP1")})
    assert circuit_key(stated, "pump") == "PUMP1"


@given(st.text(), st.text())
def test_a_key_is_six_capitals_and_digits_for_any_name(number: str, circuit: str) -> None:
    key = circuit_key(Harness(Title("t", number)), circuit)
    assert len(key) == 6
    assert KEY_FORM.fullmatch(key)


@pytest.mark.parametrize("base", ["https://records.example/os-01", "https://records.example/os-01///"])
def test_the_address_is_the_page(base: str) -> None:
    harness = replace(BASE, title=replace(BASE.title, records=base))
    key = circuit_key(harness, "pump")
    assert record_address(harness, "pump") == f"https://records.example/os-01/{key}/"
    assert record_path(key) == f"{key}/index.html"


@pytest.mark.parametrize("base", [None, ""])
def test_without_an_address_there_is_none(base: str | None) -> None:
    assert record_address(replace(BASE, title=replace(BASE.title, records=base)), "pump") is None


def test_the_line_names_harness_title_and_wires() -> None:
    wires = {f"W{n}": Wire(f"W{n}", End(), End(), circuit="pump") for n in (1, 2)}
    assert record_line(replace(BASE, wires=wires), "pump") == "OS-01 Pump motor: W1 W2"
    many = {f"W{n}": Wire(f"W{n}", End(), End(), circuit="pump") for n in range(100)}
    assert len(record_line(replace(BASE, wires=many), "pump")) <= 120

"""Quantities: what is read, what is refused and in which words, and what paper prints."""

import math
import time
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.model import quantities
from harnessdoc.model.quantities import QuantityError, Size, Unit, parse_quantity, parse_range, parse_size

AUTO = {"3": 0.85, "6": 4.59}


@pytest.mark.parametrize(
    ("text", "area_mm2", "written"),
    [
        ("2.5 mm2", 2.5, "2.5 mm²"),
        ("2.5 mm²", 2.5, "2.5 mm²"),
        ("2.5mm2", 2.5, "2.5 mm²"),
        ("  2.50 MM2 ", 2.5, "2.5 mm²"),
        ("2.5 sqmm", 2.5, "2.5 mm²"),
        ("2.5 mm^2", 2.5, "2.5 mm²"),
        (".75\u00a0mm2", 0.75, "0.75 mm²"),
        ("0.35 mm2", 0.35, "0.35 mm²"),
        ("16 mm2", 16, "16 mm²"),
        ("1e1 mm2", 10, "10 mm²"),
        ("6 mm auto", 4.59, "6 mm auto"),
        ("6.0mm auto", 4.59, "6 mm auto"),
    ],
)
def test_metric_sizes_are_read(text: str, area_mm2: float, written: str) -> None:
    assert parse_size(text, AUTO) == Size(area_mm2, written)


@pytest.mark.parametrize(
    ("text", "written", "number"),
    [
        ("14 AWG", "14 AWG", 14),
        ("AWG 14", "14 AWG", 14),
        ("14awg", "14 AWG", 14),
        ("AWG14", "14 AWG", 14),
        ("1/0 AWG", "1/0 AWG", 0),
        ("0 AWG", "1/0 AWG", 0),
        ("AWG 2/0", "2/0 AWG", -1),
        ("0000 AWG", "4/0 AWG", -3),
        ("4/0 AWG", "4/0 AWG", -3),
        ("1 AWG", "1 AWG", 1),
    ],
)
def test_gauge_sizes_are_read(text: str, written: str, number: int) -> None:
    size = parse_size(text, AUTO)
    assert (size.written, size.awg, size.is_awg) == (written, number, True)


@pytest.mark.parametrize("text", ["6 mm", "6mm", " 6.0 mm ", "6 MM"])
def test_plain_mm_is_refused_with_both_meanings(text: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_size(text, AUTO)
    told = str(refused.value)
    for part in ("4.59 mm² of copper", "6 mm² has 6", "`6 mm2`", "`6 mm auto`"):
        assert part in told


def test_plain_mm_that_no_list_sells_is_explained_by_six() -> None:
    with pytest.raises(QuantityError, match=r'"6 mm" has 4\.59 .* write `7 mm2` or `7 mm auto`'):
        parse_size("7 mm", AUTO)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2.5", "a size needs its unit: 2.5 mm2 or 14 AWG"),
        ("2,5 mm2", "write `2.5 mm2`"),
        ("1,000 mm2", "`1.000 mm2` or `1000 mm2`"),
        ("0 mm2", "above 0"),
        ("-2.5 mm2", "above 0"),
        ("0 mm", "above 0"),
        ("1e400 mm2", "too large"),
        ("nan mm2", "a size is expected"),
        ("inf mm2", "a size is expected"),
        ("1001 mm2", "no such wire"),
        ("0.0001 mm2", "no such wire"),
        ("", "a size is expected"),
        ("mm2", "a size is expected"),
        ("thick", "a size is expected"),
        ("2.5 m", "`m` is no unit of size"),
        ("10² mm2", "no unit of size"),
        ("٣ mm2", "a size is expected"),
        ("6 auto", "write `6 mm auto`"),
        ("7 mm auto", "known are 3 mm auto, 6 mm auto"),
        ("5/0 AWG", "AWG runs from 4/0 AWG"),
        ("14.5 AWG", "whole numbers only"),
        ("04 AWG", "AWG runs"),
        ("41 AWG", "AWG runs"),
        ("-1 AWG", "AWG runs"),
        ("AWG", "a size is expected"),
    ],
)
def test_other_sizes_are_refused_with_what_was_meant(text: str, told: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_size(text, AUTO)
    assert told in str(refused.value)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("60 mm", Unit.MM, 60),
        ("24 cm", Unit.MM, 240),
        ("2.4 m", Unit.MM, 2400),
        ("1 in", Unit.MM, 25.4),
        ('1"', Unit.MM, 25.4),
        ("6 ft", Unit.MM, 1828.8),
        ("6'", Unit.MM, 1828.8),
        ("6\u2032", Unit.MM, 1828.8),
        ("15 A", Unit.AMP, 15),
        ("150mA", Unit.AMP, 0.15),
        ("1e3 A", Unit.AMP, 1000),
        ("12.6 V", Unit.VOLT, 12.6),
        ("80 mV", Unit.VOLT, 0.08),
        ("55 W", Unit.WATT, 55),
        ("1.2 kW", Unit.WATT, 1200),
        ("85 ohm", Unit.OHM, 85),
        ("10 kohm", Unit.OHM, 10000),
        ("5 kΩ", Unit.OHM, 5000),
        ("5 k\u2126", Unit.OHM, 5000),
        ("7.6 mohm", Unit.OHM, 0.0076),
        ("1 Mohm", Unit.OHM, 1e6),
        ("60 C", Unit.CELSIUS, 60),
        ("60 °C", Unit.CELSIUS, 60),
        ("\u221220 C", Unit.CELSIUS, -20),
        ("0 C", Unit.CELSIUS, 0),
        ("70 %", Unit.PERCENT, 70),
        ("70 Ah", Unit.AMP_HOUR, 70),
        ("250 ms", Unit.SECOND, 0.25),
        ("2 min", Unit.SECOND, 120),
    ],
)
def test_quantities_come_back_in_the_base_unit(text: str, unit: Unit, value: float) -> None:
    assert parse_quantity(text, unit) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "unit", "told"),
    [
        ("15", Unit.AMP, "`15` needs a unit: 15 A"),
        ("2400", Unit.MM, "needs a unit: 2400 mm"),
        ("15 V", Unit.AMP, "is a voltage; a current is wanted here, like 15 A"),
        ("7 Ah", Unit.AMP, "is a battery capacity"),
        ("2.5 mm2", Unit.MM, "is a wire size; a length is wanted"),
        ("14 AWG", Unit.MM, "is a wire size"),
        ("15 MA", Unit.AMP, "did you mean `15 mA`?"),
        ("15 ampere", Unit.AMP, "`ampere` is no unit that is read"),
        ("10 M", Unit.MM, "did you mean `10 m`?"),
        ("60 F", Unit.CELSIUS, "temperatures are in °C: 15.56 °C"),
        ("-300 C", Unit.CELSIUS, "nothing is colder"),
        ("0 V", Unit.VOLT, "above 0"),
        ("-1 V", Unit.VOLT, "not below 0"),
        ("2,4 m", Unit.MM, "write `2.4 m`"),
        ("1e308 m", Unit.MM, "too large"),
        ("nan V", Unit.VOLT, "a voltage is expected"),
        ("", Unit.WATT, "a power is expected, a number and its unit: 55 W"),
    ],
)
def test_other_quantities_are_refused_with_what_was_meant(text: str, unit: Unit, told: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_quantity(text, unit)
    assert told in str(refused.value)


def test_zero_and_below_need_their_flag() -> None:
    assert parse_quantity("0 V", Unit.VOLT, allow_zero=True) == 0
    assert parse_quantity("-0.2 V", Unit.VOLT, allow_negative=True) == -0.2
    assert math.copysign(1, parse_quantity("-0 V", Unit.VOLT, allow_zero=True)) == 1
    with pytest.raises(QuantityError):
        parse_quantity("-0.2 V", Unit.VOLT, allow_zero=True)


@pytest.mark.parametrize(
    ("text", "unit", "ends"),
    [
        ("3.5..4 V", Unit.VOLT, (3.5, 4)),
        ("3.5 .. 4 V", Unit.VOLT, (3.5, 4)),
        ("3.5 V..4 V", Unit.VOLT, (3.5, 4)),
        ("350 mV..4 V", Unit.VOLT, (0.35, 4)),
        ("10..100 %", Unit.PERCENT, (10, 100)),
        ("0 V", Unit.VOLT, (0, 0)),
        ("5 V", Unit.VOLT, (5, 5)),
        ("-20..60 C", Unit.CELSIUS, (-20, 60)),
    ],
)
def test_ranges_are_read(text: str, unit: Unit, ends: tuple[float, float]) -> None:
    assert parse_range(text, unit) == ends


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("4..3.5 V", "the lower end comes first: 3.5..4 V"),
        ("3.5-4 V", "two dots: 3.5..4 V"),
        ("3.5 to 4 V", "two dots"),
        ("3.5–4 V", "two dots"),
        ("0...4 V", "two dots"),
        ("..4 V", "a voltage is expected"),
        ("3.5..4", "needs a unit: 4 V"),
        ("3.5..4 A", "a voltage is wanted"),
        ("3,5..4 V", "decimal mark"),
        ("-1..4 V", "not below 0"),
    ],
)
def test_other_ranges_are_refused(text: str, told: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_range(text, Unit.VOLT)
    assert told in str(refused.value)


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        (quantities.format_length(2400), "2.4 m"),
        (quantities.format_length(60), "60 mm"),
        (quantities.format_length(1828.8), "1.829 m"),
        (quantities.format_length(999.999), "1 m"),
        (quantities.format_length(25.4), "25.4 mm"),
        (quantities.format_length(0), "0 mm"),
        (quantities.format_length(0.001), "0.001 mm"),
        (quantities.format_amps(14.2), "14.2 A"),
        (quantities.format_amps(0.15), "0.15 A"),
        (quantities.format_amps(0.02), "20 mA"),
        (quantities.format_amps(0), "0 A"),
        (quantities.format_amps(7.123456), "7.123 A"),
        (quantities.format_volts(12.60), "12.6 V"),
        (quantities.format_volts(-0.35), "-0.35 V"),
        (quantities.format_watts(1200), "1.2 kW"),
        (quantities.format_watts(55), "55 W"),
        (quantities.format_ohms(0.0076), "7.6 mΩ"),
        (quantities.format_ohms(85), "85 Ω"),
        (quantities.format_ohms(9999.99), "10 kΩ"),
        (quantities.format_ohms(0), "0 Ω"),
        (quantities.format_celsius(-20), "-20 °C"),
        (quantities.format_percent(70), "70 %"),
        (quantities.format_amp_hours(70), "70 Ah"),
        (quantities.format_seconds(0.25), "250 ms"),
        (quantities.format_area(2.0809), "2.081 mm²"),
    ],
)
def test_paper_prints_the_shortest_honest_text(printed: str, expected: str) -> None:
    assert printed == expected


@given(st.text(max_size=30), st.sampled_from(Unit), st.booleans())
@settings(max_examples=300, deadline=None)
def test_any_text_is_a_value_or_a_refusal(text: str, unit: Unit, flag: bool) -> None:
    for read in (
        lambda: parse_size(text, AUTO).area_mm2,
        lambda: parse_quantity(text, unit, allow_zero=flag, allow_negative=not flag),
        lambda: parse_range(text, unit)[1],
    ):
        with suppress(QuantityError):
            assert math.isfinite(read())


_NEAR = st.text(alphabet="0123456789.,+-eE/ mMkAVWwgG²'\"Ω%°CFauto\t", max_size=14)


@given(_NEAR, st.sampled_from(Unit))
@settings(max_examples=300, deadline=None)
def test_text_close_to_a_quantity_is_a_value_or_a_refusal(text: str, unit: Unit) -> None:
    with suppress(QuantityError):
        size = parse_size(text, AUTO)
        assert parse_size(size.written, AUTO) == size
    with suppress(QuantityError):
        assert math.isfinite(parse_quantity(text, unit))


_FORMATS = {
    Unit.AMP: quantities.format_amps,
    Unit.VOLT: quantities.format_volts,
    Unit.WATT: quantities.format_watts,
    Unit.OHM: quantities.format_ohms,
    Unit.PERCENT: quantities.format_percent,
    Unit.AMP_HOUR: quantities.format_amp_hours,
    Unit.SECOND: quantities.format_seconds,
}


@given(st.floats(min_value=1e-6, max_value=1e7), st.sampled_from(list(_FORMATS)))
@settings(max_examples=300, deadline=None)
def test_what_is_printed_reads_back_to_four_digits(value: float, unit: Unit) -> None:
    printed = _FORMATS[unit](value)
    assert "e" not in printed
    assert parse_quantity(printed, unit) == pytest.approx(value, rel=5.1e-4)


@given(st.floats(min_value=0.01, max_value=1e6))
@settings(max_examples=200, deadline=None)
def test_a_printed_length_reads_back_to_half_its_last_digit(length_mm: float) -> None:
    printed = quantities.format_length(length_mm)
    assert parse_quantity(printed, Unit.MM) == pytest.approx(
        length_mm, abs=0.501 if printed.endswith(" m") else 0.00501
    )


@given(st.floats(min_value=0.005, max_value=1000).map(lambda area: round(area, 3)))
@settings(max_examples=200, deadline=None)
def test_a_size_as_written_reads_back(area_mm2: float) -> None:
    size = parse_size(f"{area_mm2} mm2", AUTO)
    assert parse_size(size.written, AUTO) == size


def test_ten_thousand_wires_cost_little() -> None:
    """10,000 sizes and as many distinct lengths; the bound is ten times what a slow machine needs."""
    begun = time.process_time()
    for number in range(10_000):
        parse_size("2.5 mm2", AUTO)
        parse_quantity(f"{number + 1} mm", Unit.MM)
    assert time.process_time() - begun < 1.0

"""What a place asks of a label, and whether a stock stands it."""

from __future__ import annotations

import pytest

from harnessdoc.labels.material import Stands, Stock
from harnessdoc.labels.stock import read_stock
from harnessdoc.labels.surroundings import fails, surroundings, surroundings_at
from harnessdoc.model.harness import Harness, Place, Run, Title

ALL = frozenset({"water", "oil", "coolant", "fuel"})


@pytest.mark.parametrize(
    ("zone", "kinds", "fluids", "sun", "abrasion"),
    [
        ("cabin", ("cabin",), set(), False, False),
        ("Cab, dry", ("cabin", "enclosure"), set(), False, False),
        ("outside", ("outside",), {"water"}, True, False),
        ("wet", ("wet",), {"water"}, False, False),
        ("engine space", ("engine space",), ALL, False, True),
        ("engine bay", ("engine space",), ALL, False, True),
        ("outside, wet", ("outside", "wet"), {"water"}, True, False),
        ("outside, not wet", ("outside",), {"water"}, True, False),
        ("enclosure beside the fuel tank", ("enclosure", "fuel"), {"fuel"}, False, False),
        ("bilge", ("bilge",), {"water", "oil", "fuel"}, False, False),
    ],
)
def test_the_words_of_a_zone_say_what_gets_at_a_label(
    zone: str, kinds: tuple[str, ...], fluids: set[str], sun: bool, abrasion: bool
) -> None:
    found = surroundings(Place("here", zone))
    assert (found.zones, found.fluids, found.sun, found.abrasion) == (kinds, fluids, sun, abrasion)


def test_stated_warmth_goes_before_what_is_assumed() -> None:
    assert surroundings(Place("here", "engine space")).warm_c == 105
    assert surroundings(Place("here", "engine space")).assumed == ("105 °C assumed, nobody states `warm:`",)
    stated = surroundings(Place("here", "engine space", warm_c=80))
    assert (stated.warm_c, stated.assumed) == (80, ())
    assert surroundings(Place("here", "cabin", warm_c=40), (60, None)).warm_c == 60


def test_what_nobody_states_is_assumed_and_said() -> None:
    assert surroundings(None).assumed[0] == "no place stated, taken as cabin"
    assert surroundings(Place("here")).assumed[0] == "here states no zone, taken as cabin"
    assert surroundings(Place("here", "attic")).assumed[0] == "zone `attic` is not known, taken as cabin"


def test_a_run_asks_for_what_both_its_ends_ask() -> None:
    harness = Harness(
        Title("t", "1"),
        places={"cab": Place("cab", "cabin"), "bay": Place("bay", "engine space", 80)},
        runs=(Run("cab", "bay", warm_c=70),),
    )
    found = surroundings_at(harness, "cab - bay")
    assert found.text == "cabin and engine space: 80 °C, water, oil, coolant, fuel, abrasion"
    assert surroundings_at(harness, "cab").zones == ("cabin",)
    assert surroundings_at(harness, "nowhere").assumed


def test_direct_thermal_stock_is_refused_in_an_engine_space_whatever_it_claims() -> None:
    """Heat blackens it: common practice. Even where a cool engine space is stated, and where its file claims all."""
    carried = read_stock("tape-24-direct-thermal")
    claims = Stock("claims", print_mode="direct thermal", stands=Stands(200, ALL, True, True))
    for stock in (carried, claims):
        for warm_c in (None, 45.0):
            assert "heat blackens" in fails(stock, surroundings(Place("bay", "engine bay", warm_c)))
    assert "heat blackens" in fails(carried, surroundings(Place("shelf", "cabin", 65)))
    assert fails(carried, surroundings(Place("shelf", "cabin", 40))) == ""
    assert "it does not stand water, sun" in fails(carried, surroundings(Place("roof", "outside", 40)))


def test_what_a_stock_lacks_is_named() -> None:
    film = read_stock("a4-65-38x21")
    bay = surroundings(Place("bay", "engine space", 80))
    assert fails(film, bay) == (
        "it does not stand oil, coolant, fuel, abrasion (engine space: 80 °C, water, oil, coolant, fuel, abrasion)"
    )
    assert fails(film, surroundings(Place("bay", "cabin", 110))).startswith(
        "it does not stand 110 °C (it stands 100 °C)"
    )
    assert fails(read_stock("a4-91-self-laminating-s"), bay) == ""
    assert fails(film, surroundings(Place("mast", "outside"))) == ""


def test_a_stock_that_says_nothing_is_for_a_dry_cabin() -> None:
    silent = Stock("silent")
    assert fails(silent, surroundings(Place("cab", "cabin"))) == ""
    assert "does not say what it stands" in fails(silent, surroundings(Place("mast", "outside")))

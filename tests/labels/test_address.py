"""What address would fit: counted by hand from the standard's capacities."""

from __future__ import annotations

from harnessdoc.labels.address import most_modules, shorter_address, smaller_in_capitals

ADDRESS, KEY = "https://records.example/os-01/K7Q2MA/", "K7Q2MA"


def test_how_many_modules_a_face_holds() -> None:
    """At 300 dpi 4 dots are 0.3387 mm: (12.7 - 0.0847) / 0.3387 = 37.2, less 8 of the quiet zone 29 (version 3);
    bent round a wire at most 4 mm: 11."""
    assert most_modules(12.7, 30.0, 300) == 29
    assert most_modules(30.0, 12.7, 300) == 29
    assert most_modules(12.7, 30.0, 300, bent_mm=4.0) == 11
    assert most_modules(12.7, 30.0, 203) == 17


def test_capitals_that_would_fit_are_proposed() -> None:
    """37 characters: version 3 at level M in small letters (42), version 2 in capitals (38), 25 modules a side."""
    found = shorter_address(ADDRESS, KEY, "M", 25)
    assert found == "`records: HTTPS://RECORDS.EXAMPLE/OS-01`, in capitals, would fit, if your server takes capitals"


def test_else_the_count_of_characters_is_told() -> None:
    """Version 1 at level M: 20 capitals, less /K7Q2MA/ 12; the address has 29 before that, 17 fewer."""
    found = shorter_address(ADDRESS, KEY, "M", 21)
    assert found == "`records:` of at most 12 capitals and digits would fit: 17 fewer than now"


def test_small_letters_too_where_they_would_fit() -> None:
    """Version 3 at level Q, 29 modules: 47 capitals, 32 bytes; less 8: 39 and 24."""
    long = "https://records.farm-of-the-apple-row.example/os-01/K7Q2MA/"
    found = shorter_address(long, KEY, "Q", 29)
    assert found == (
        "`records:` of at most 39 capitals and digits would fit: 12 fewer than now (or 24 with small letters)"
    )


def test_nothing_is_proposed_where_nothing_fits_or_no_address_is_there() -> None:
    assert shorter_address(ADDRESS, KEY, "M", 11) == "no address is short enough for it"
    assert shorter_address(ADDRESS, KEY, "H", 21) == "no address is short enough for it"  # 10 capitals, less 8
    assert shorter_address("OS-01 Pump: W1", "", "M", 21) == ""
    assert shorter_address("https://records.example/os-01/", KEY, "M", 21) == ""


def test_capitals_are_advised_where_they_save_a_version() -> None:
    found = smaller_in_capitals(ADDRESS, KEY)
    assert "`records: HTTPS://RECORDS.EXAMPLE/OS-01`" in found
    assert "25 modules a side rather than 29" in found
    assert smaller_in_capitals(ADDRESS.upper(), KEY) == ""
    assert smaller_in_capitals("http://a.bc/K7Q2MA/", KEY, "H") == "" or "rather" in smaller_in_capitals(
        "http://a.bc/K7Q2MA/", KEY, "H"
    )

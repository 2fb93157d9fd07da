"""What is written of a run: its bundle, the covering it needs, its splices. Figures worked by hand."""

from dataclasses import replace

import pytest

from harnessdoc.drawing.run_words import MOST_SPLICES, cover_texts, run_words
from harnessdoc.model.harness import Harness, Run, Splice, Title
from harnessdoc.routing import Bundle, route_harness

RUN = Run("cab", "mast", 1000.0, "split loom")


@pytest.mark.parametrize(
    ("bundle", "cover", "texts"),
    [
        (Bundle(("W1",), 12.1), "split loom", ["split loom", "inside ≥ 12.1 mm"]),
        (Bundle(("W1", "W2"), 12.1, ("W2",)), "split loom", ["split loom", "inside > 12.1 mm"]),
        (Bundle(("W1",), None, ("W1",)), "split loom", ["split loom"]),
        (Bundle(("W1",), 12.1), "cloth tape", ["cloth tape"]),
        (Bundle(("W1",), 12.1), None, ["covering not stated"]),
    ],
)
def test_the_covering_s_least_inside_is_the_bundle(bundle: Bundle, cover: str | None, texts: list[str]) -> None:
    """No allowance for filling: common practice, no source. A tape has no inside."""
    found = cover_texts(replace(RUN, cover=cover), bundle)
    assert [text.replace("\xa0", " ") for text in found] == texts


def _with(*splices: Splice) -> Harness:
    return Harness(Title("t", "n"), runs=(RUN,), splices={splice.name: splice for splice in splices})


def _words(shown: Harness):  # type: ignore[no-untyped-def]
    return run_words(shown, route_harness(shown), 0, 25.0)


def test_splices_stand_in_the_order_of_their_distance() -> None:
    """250 mm from the cab is a quarter of the run; 100 mm from the mast nine tenths of it from the cab."""
    shown = _with(
        Splice("J1", between=("cab", "mast"), after_mm=250.0), Splice("J2", between=("mast", "cab"), after_mm=100.0)
    )
    found = _words(shown).splices
    assert [(one.name, one.words, one.from_a, one.share) for one in found] == [
        ("J2", "J2 100 mm", False, 0.9),
        ("J1", "J1 250 mm", True, 0.25),
    ]


def test_more_splices_than_have_room_are_counted() -> None:
    shown = _with(*(Splice(f"J{n}", between=("cab", "mast"), after_mm=10.0 * n) for n in range(1, 8)))
    words = _words(shown)
    assert len(words.splices) == MOST_SPLICES
    assert words.more == 3
    assert " ".join(words.below) == "and 3 more splices"


def test_a_distance_that_nobody_knows() -> None:
    (found,) = _words(_with(Splice("J1", between=("cab", "mast")))).splices
    assert (found.words, found.share) == ("J1 ?", 0.5)

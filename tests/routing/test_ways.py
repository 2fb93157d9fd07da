"""Ways along runs: trees, loops, ties, runs of unknown length."""

from harnessdoc.model.harness import Run
from harnessdoc.routing import Ways


def test_a_tree_has_one_way() -> None:
    """cab - mast - boom, and a side run to the tank: boom to tank goes back over the mast."""
    ways = Ways([Run("cab", "mast", 2400.0), Run("mast", "boom", 900.0), Run("mast", "tank", 700.0)])
    assert ways.between("cab", "boom") == (0, 1)
    assert ways.between("boom", "tank") == (1, 2)
    assert ways.between("tank", "tank") == ()


def test_places_that_nothing_joins_have_no_way() -> None:
    ways = Ways([Run("cab", "mast", 2400.0), Run("tank", "pump", 700.0)])
    assert ways.between("cab", "pump") is None
    assert ways.between("cab", "moon") is None


def test_in_a_loop_the_shorter_side_is_taken() -> None:
    """One side 1000 + 1000 = 2000 mm, the other 1900 mm in one."""
    ways = Ways([Run("a", "b", 1000.0), Run("b", "c", 1000.0), Run("a", "c", 1900.0)])
    assert ways.between("a", "c") == (2,)
    longer = Ways([Run("a", "b", 1000.0), Run("b", "c", 1000.0), Run("a", "c", 2100.0)])
    assert longer.between("a", "c") == (0, 1)


def test_a_run_of_unknown_length_is_avoided() -> None:
    ways = Ways([Run("a", "c"), Run("a", "b", 5000.0), Run("b", "c", 5000.0)])
    assert ways.between("a", "c") == (1, 2)


def test_equal_ways_are_decided_by_the_order_of_the_file() -> None:
    """Both sides 2000 mm over two runs; a second run beside an equal one is never taken."""
    ways = Ways([Run("a", "x", 1000.0), Run("x", "c", 1000.0), Run("a", "y", 1000.0), Run("y", "c", 1000.0)])
    assert ways.between("a", "c") == (0, 1)
    assert ways.between("c", "a") == (1, 0)
    assert Ways([Run("a", "b", 500.0), Run("a", "b", 500.0)]).between("a", "b") == (0,)


def test_a_run_to_itself_leads_nowhere() -> None:
    ways = Ways([Run("a", "a", 10.0), Run("a", "b", 500.0)])
    assert ways.between("a", "b") == (1,)

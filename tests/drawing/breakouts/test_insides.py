"""What is drawn inside items: which paths, in which lanes, drawn at rest."""

import pytest

from harnessdoc.drawing.breakouts.insides import in_order, inside_of
from harnessdoc.model.kinds.base import Kind
from harnessdoc.model.kinds.controls import Potentiometer, SpeedController
from harnessdoc.model.kinds.electronics import Sensor
from harnessdoc.model.kinds.loads import Diode, Lamp, Motor
from harnessdoc.model.kinds.protection import Breaker, Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.sources import Battery
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import read_drawn


def test_terminals_that_a_path_joins_lie_near_each_other() -> None:
    assert in_order(Relay()) == ("85", "86", "30", "87a", "87")
    assert in_order(RelayBoard()) == ("+", "-", "IN", "COM", "NC", "NO")
    assert in_order(Sensor()) == ("+", "-", "S")


def test_paths_beside_each_other_take_lanes() -> None:
    """A changeover: coil and break contact under each other, the make contact beside them."""
    inside = inside_of(Relay())
    assert inside is not None
    assert [(path.a, path.b, lane) for path, lane in inside.paths] == [
        ("85", "86", 0),
        ("30", "87a", 0),
        ("30", "87", 1),
    ]
    assert inside.lanes == 2


def test_electronics_keep_their_symbol() -> None:
    assert inside_of(SpeedController()) is None
    assert inside_of(Sensor()) is None


@pytest.mark.parametrize(
    "kind",
    [Battery(), Fuse(), Breaker(), Relay(), Relay(contact="make"), Relay(contact="break"), RelayBoard(), Lamp(),
     Motor(), Diode(), Potentiometer(), Switch(contacts={"1-2": ("on",), "2-3": ("off",)})],
    ids=lambda kind: kind.name,
)  # fmt: skip
def test_every_path_s_lead_begins_at_the_edge_in_its_row(kind: Kind) -> None:
    """Rows 7 mm apart from y = 20, the edge at x = 10: each terminal that a path joins has a line from there."""
    inside = inside_of(kind)
    assert inside is not None
    rows = {terminal: 20.0 + 7.0 * index for index, terminal in enumerate(in_order(kind))}
    page = Page(100, 100)
    inside.draw(page, 10.0, 16.0, rows)
    (drawn,) = read_drawn(pdf_bytes([page]))
    starts = {round(line.y1, 1) for line in drawn.lines if abs(min(line.x1, line.x2) - 10.0) < 0.05}
    assert starts == {round(y, 1) for y in rows.values()}
    reach = max(max(line.x1, line.x2) for line in drawn.lines)
    assert reach <= 16.0 + 6.4 * inside.lanes


def _touching(kind: Kind) -> bool:
    """Whether the moving part of a contact between rows 20 and 27 reaches the part that stands still."""
    inside = inside_of(kind)
    assert inside is not None
    page = Page(100, 100)
    inside.draw(page, 10.0, 16.0, {"1": 20.0, "2": 27.0})
    (drawn,) = read_drawn(pdf_bytes([page]))
    slants = [line for line in drawn.lines if line.x1 != line.x2 and line.y1 != line.y2]
    ticks = [line for line in drawn.lines if line.y1 == line.y2 and 20.1 < line.y1 < 26.9]
    return bool(slants) and bool(ticks)


def test_a_contact_is_drawn_at_rest() -> None:
    assert _touching(Switch(contacts={"1-2": ("off",)}))
    assert not _touching(Switch(contacts={"1-2": ("on",)}))
    assert _touching(Switch(contacts={"1-2": ("on",)}, rest="on"))

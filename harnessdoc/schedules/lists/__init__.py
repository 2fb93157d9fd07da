"""All lists by name. A new list: its function in a file here, one line below; it takes what is known and what is asked
and gives a `Schedule` of the same name. Everything else (CSV, workbook, paper, command) follows."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.lists.bundles import bundle_list, covering_list
from harnessdoc.schedules.lists.cuts import buy_list, cut_list, cutting_list
from harnessdoc.schedules.lists.devices import fuse_list, relay_list
from harnessdoc.schedules.lists.ends import end_list, hardware_list, tool_list
from harnessdoc.schedules.lists.places import cavity_list, place_list, plug_list
from harnessdoc.schedules.lists.registers import splice_list, stub_list
from harnessdoc.schedules.lists.wires import wire_list
from harnessdoc.schedules.schedule import Schedule

LISTS: Mapping[str, Callable[[Facts, Asked], Schedule]] = {
    "wires": wire_list,
    "cuts": cut_list,
    "buy": buy_list,
    "cutting": cutting_list,
    "ends": end_list,
    "hardware": hardware_list,
    "tools": tool_list,
    "splices": splice_list,
    "stubs": stub_list,
    "fuses": fuse_list,
    "relays": relay_list,
    "plugs": plug_list,
    "cavities": cavity_list,
    "places": place_list,
    "bundles": bundle_list,
    "coverings": covering_list,
}
"""Name to maker, in the order in which the work needs them."""

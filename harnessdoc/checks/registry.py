"""The rules, one line each. Adding a rule: its file in `rules/`, its line here, its test, a line in the changelog."""

from __future__ import annotations

from types import ModuleType

from harnessdoc.checks.rules import (
    back_feed,
    coil_voltage,
    colour_against_role,
    crowded_terminal,
    green_yellow_misused,
    look_alike_wires,
    lost_function,
    mates_badly,
    missing_name,
    missing_point,
    open_terminal,
    overfull_splice,
    reversed_load,
    shared_record_key,
    signal_window,
    source_shorted,
    step_down_unprotected,
    stub_unlike_wire,
    supplies_joined,
    uncapped_end,
    undocumented_cut,
    unfit_hardware,
    unstated_colour_change,
    wire_without_circuit,
)

RULE_FILES: tuple[ModuleType, ...] = (
    missing_point,
    missing_name,
    mates_badly,
    source_shorted,
    lost_function,
    step_down_unprotected,
    green_yellow_misused,
    coil_voltage,
    signal_window,
    back_feed,
    supplies_joined,
    reversed_load,
    colour_against_role,
    unstated_colour_change,
    look_alike_wires,
    overfull_splice,
    unfit_hardware,
    crowded_terminal,
    stub_unlike_wire,
    undocumented_cut,
    uncapped_end,
    open_terminal,
    wire_without_circuit,
    shared_record_key,
)

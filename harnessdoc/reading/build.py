"""Validated shapes to the model's parts. No faults are found here but names that can't be a name."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

from harnessdoc.model.colours import Colour, ColourError, parse_colour
from harnessdoc.model.face import Face, View
from harnessdoc.model.harness import (
    Cable,
    Circuit,
    End,
    Item,
    LostFunction,
    Operation,
    Place,
    Plug,
    Reading,
    Revision,
    Run,
    Splice,
    Stub,
    Title,
    Wire,
)
from harnessdoc.model.kinds import Kind
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import Point
from harnessdoc.reading import shapes


def title(shape: shapes.TitleShape, mark: Mark) -> Title:
    """`harness:`"""
    revisions = tuple(Revision(**_same(revision)) for revision in shape.revisions)
    return Title(**{**_same(shape), "revisions": revisions}, mark=mark)


def place(name: str, shape: shapes.PlaceShape, mark: Mark) -> Place:
    """One of `places:`"""
    return Place(name, **_same(shape), mark=mark)


def run(shape: shapes.RunShape, mark: Mark) -> Run:
    """One of `runs:`"""
    a, b = shape.between
    hole_mm, grommet = (shape.through.hole_mm, shape.through.grommet) if shape.through else (None, None)
    return Run(a, b, shape.length_mm, shape.cover, hole_mm, grommet, shape.warm_c, mark)


def item(name: str, shape: shapes.ItemShape, kind: Kind, mark: Mark) -> Item:
    """One of `items:`, its kind made by the kind's own shape."""
    existing = shape.laid == "existing"
    return Item(name, kind, shape.place, shape.title, existing, shape.takes, shape.left_open, shape.remarks, mark)


def plug(name: str, shape: shapes.PlugShape, face: Face, mark: Mark, pins: bool) -> Plug:
    """One of `plugs:`; a plug cut whole is cut at each cavity that is not empty. `pins`: its face is the mirror image
    of the layout, which shows the half with sockets."""
    cut = shape.cut
    if "whole" in cut:
        cut = dict.fromkeys((c for c in face.cavity_names if c not in shape.empty), cut["whole"])
    return Plug(
        name,
        face.mirrored() if pins else face,
        View(shape.view),
        shape.title,
        shape.place,
        shape.mates_with,
        shape.contacts,
        cut,
        shape.empty,
        shape.legend,
        shape.takes,
        shape.rating_a,
        shape.remarks,
        mark,
    )


def _end(landing: Any, end: shapes.EndShape | None) -> End:
    tail = landing == "tail"
    point = None if tail else landing
    return End(point, tail, end.hardware if end else None, end.strip_mm if end else None)


def wire(name: str, shape: shapes.WireShape, mark: Mark, cable: str | None = None) -> Wire:
    """One of `wires:`, or a core."""
    first, second = shape.ends or (None, None)
    return Wire(
        name,
        _end(shape.from_, first),
        _end(shape.to, second),
        shape.colour,
        shape.size,
        shape.length_mm,
        shape.circuit,
        shape.laid == "existing",
        shape.was_at,
        shape.drive,
        shape.role,
        cable,
        shape.outside_mm,
        shape.insulation_c,
        shape.remarks,
        mark,
    )


FROM_CABLE = {"size": "size", "length": "length_mm", "circuit": "circuit", "laid": "laid"}
"""Keys that a core takes from its cable where it does not state them, and their fields."""


def cable(
    name: str, shape: shapes.CableShape, stated: Mapping[str, Collection[str]], mark: Mark
) -> tuple[Cable, list[Wire]]:
    """A cable and its cores as wires. `stated`: core to the keys it states; the rest it takes from the cable.

    A core that states no colour and is named after one has it."""
    cores, spare, wires = [], [], []
    for core, core_shape in shape.cores.items():
        if core_shape is None:
            spare.append(core)
            continue
        cores.append(core)
        taken = {field: getattr(shape, field) for key, field in FROM_CABLE.items() if key not in stated.get(core, ())}
        if "colour" not in stated.get(core, ()):
            taken["colour"] = _colour_of_core(core)
        wires.append(wire(f"{name}.{core}", replace(core_shape, **taken), mark, name))
    made = Cable(name, tuple(cores), tuple(spare), shape.outside_mm, shape.length_mm, shape.remarks, mark)
    return made, wires


def _colour_of_core(name: str) -> Colour | None:
    try:
        return parse_colour(name)
    except ColourError:
        return None


def splice(name: str, shape: shapes.SpliceShape, mark: Mark) -> Splice:
    """One of `splices:`"""
    between = tuple(shape.between) if shape.between else None
    return Splice(name, **{**_same(shape), "between": between}, mark=mark)


def stub(point: Point, shape: shapes.StubShape, mark: Mark) -> Stub:
    """One of `stubs:`"""
    return Stub(point, **_same(shape), mark=mark)


def circuit(name: str, shape: shapes.CircuitShape, mark: Mark) -> Circuit:
    """One of `circuits:`"""
    return Circuit(name, **_same(shape), mark=mark)


def lost_function(name: str, shape: shapes.LostFunctionShape, mark: Mark) -> LostFunction:
    """One of `lost functions:`"""
    return LostFunction(name, **_same(shape), mark=mark)


def operation(shape: shapes.OperationShape, mark: Mark) -> Operation:
    """One of `operation:`"""
    return Operation(**_same(shape), mark=mark)


def reading(shape: shapes.ReadingShape, mark: Mark) -> Reading:
    """One of `readings:`"""
    return Reading(**{**_same(shape), "between": tuple(shape.between)}, mark=mark)


def _same(shape: Any) -> dict[str, Any]:
    """The shape's fields, named as in the model."""
    return {name: getattr(shape, name) for name in shape.__dataclass_fields__}

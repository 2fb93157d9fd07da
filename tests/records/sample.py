"""A small harness written in Python, so that these tests need no reading; and findings for it."""

from __future__ import annotations

from harnessdoc.model.colours import Colour
from harnessdoc.model.face import Cavity, Face
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import (
    Circuit,
    End,
    Harness,
    Item,
    LostFunction,
    Operation,
    Plug,
    Reading,
    Splice,
    Stub,
    Title,
    Wire,
)
from harnessdoc.model.kinds.joints import EarthPoint
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.model.kinds.sources import Battery
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import CHASSIS, Point, parse_point
from harnessdoc.model.quantities import Size

JPEG = b"\xff\xd8\xff\xe0" + bytes(20)
MM2_2_5 = Size(2.5, "2.5 mm²")


def wire(name: str, a: str, b: str, circuit: str | None, colour: Colour | None = None) -> Wire:
    """A wire from point to point; an end `unknown` or `tail` is that."""

    def end(text: str) -> End:
        if text in ("unknown", "tail"):
            return End(tail=text == "tail")
        return End(parse_point(text), hardware=Hardware("tab", "6.3"))

    return Wire(name, end(a), end(b), colour or Colour("RD"), MM2_2_5, 640.0, circuit)


def named(*parts: object) -> dict[str, object]:
    """Parts by their name."""
    return {part.name: part for part in parts}  # type: ignore[attr-defined]


def make_harness() -> Harness:
    """Battery, main fuse F1; F3 and S1 to motor M1 (agitator); F4 over relay K1 to M2 (pump); W9 on no circuit."""
    face = Face("rect-1x3", "rect", 20, 10, tuple(Cavity(str(n), 5.0 * n, 0) for n in (1, 2, 3)))
    return Harness(
        title=Title("Sprayer loom", "OS-01", "B", records="https://records.example/os-01"),
        items=named(
            Item("G1", Battery(volts=12.6), place="engine bay"),
            Item("F1", Fuse(rating_a=40), place="engine bay"),
            Item("F3", Fuse(rating_a=15, style="blade"), place="cab", title="Agitator fuse"),
            Item("F4", Fuse(rating_a=20), place="cab"),
            Item("S1", Switch(contacts={"1-2": ("on",)}, rating_a=20), place="cab"),
            Item("K1", Relay(rating_a=30)),
            Item("M1", Load(amps=7), place="tank", title="Agitator"),
            Item("M2", Load(amps=9)),
            Item("XE1", EarthPoint()),
        ),  # type: ignore[arg-type]
        plugs=named(Plug("X4", face, title="Old box", cut={"1": "2026-10-11"})),  # type: ignore[arg-type]
        wires=named(
            wire("W1", "G1:+", "F1:1", None),
            wire("W2", "F1:2", "J1", None),
            wire("W3", "J1", "F3:1", None),
            wire("W4", "J1", "F4:1", None),
            wire("W12", "F3:2", "S1:1", "agitator", Colour("RD", ("BK",))),
            wire("W13", "S1:2", "M1:1", "agitator"),
            wire("W14", "M1:2", "XE1", "agitator", Colour("BK")),
            wire("W20", "F4:2", "K1:30", "pump"),
            wire("W21", "K1:87", "M2:1", "pump"),
            wire("W22", "M2:2", "tail", "pump"),
            wire("W23", "S1:2", "K1:86", "pump", Colour("YE")),
            wire("W9", "X4:2", "unknown", None),
        ),  # type: ignore[arg-type]
        splices=named(Splice("J1", "crimp", cover="glued heat-shrink", place="cab")),  # type: ignore[arg-type]
        stubs={Point("X4", "1"): Stub(Point("X4", "1"), Colour("YE"), MM2_2_5, 60.0, "W23", "pump relay drive", True)},
        circuits=named(
            Circuit("agitator", "Agitator motor", "Turns the tank over.", "Was louder.", ("photos/a.jpg",)),
            Circuit("pump", "Pump"),
        ),  # type: ignore[arg-type]
        lost_functions=named(
            LostFunction("pump stops when dry", "A1", ("K1",)),
            LostFunction("boom light timer", "A1", waived="not wanted"),
            LostFunction("tank frost guard", "A1"),
        ),  # type: ignore[arg-type]
        operation=(Operation({"S1": "on"}, ("M1",)),),
        readings=(
            Reading("2026-10-11", (Point("S1", "2"), CHASSIS), {"S1": "on"}, volts=12.4, loaded_with="21 W lamp"),
            Reading("2026-10-12", (Point("F1", "2"), CHASSIS), volts=12.7),
        ),
    )


def finding(about: str, *circuits: str, severity: Severity = Severity.FAULT, text: str = "") -> Finding:
    """A finding about a part, or about what the circuits named hold."""
    return Finding("rule", severity, about, text or f"{about} is wrong", "mend it", "why", "source", circuits=circuits)

"""Random harnesses as YAML, the same for the same seed: loops, parallel wires, shared returns, relays that drive
relays, changeovers, isolators, second sources, boards, regulators, sensors. Plain text; shares no code with the
package."""

from __future__ import annotations

from random import Random

SIZES = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25)


class Writer:
    """Collects a harness; every name is new."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.items: list[str] = []
        self.wires: list[str] = []
        self.splices: list[str] = []

    def item(self, letter: str, text: str) -> str:
        """Add an item; returns its name."""
        name = f"{letter}{len(self.items) + 1}"
        self.items.append(f"  {name}: {{{text}}}")
        return name

    def splice(self) -> str:
        """Add a splice."""
        name = f"J{len(self.splices) + 1}"
        self.splices.append(f"  {name}: {{method: crimp}}")
        return name

    def wire(self, a: str, b: str, least: float = 0.5) -> None:
        """Join two points with a wire of random size and length; now and then with two of them."""
        for _ in range(2 if self.random.random() < 0.1 else 1):
            size = self.random.choice([one for one in SIZES if one >= least])
            mm = self.random.randrange(50, 6000)
            self.wires.append(
                f"  W{len(self.wires) + 1}: {{from: '{a}', to: '{b}', size: {size} mm2, length: {mm} mm}}"
            )

    def text(self) -> str:
        """The file."""
        parts = (("items", self.items), ("wires", self.wires), ("splices", self.splices))
        sections = [f"{name}:\n" + "\n".join(lines) for name, lines in parts if lines]
        return "\n".join(["harness: {title: Random, number: R}", *sections]) + "\n"


class Maker(Writer):
    """A harness from a battery outwards: `feeds` and `backs` are points that more can be joined to."""

    def __init__(self, seed: int, *, diodes: bool = False, steady: bool = False, sources: bool = True) -> None:
        super().__init__(seed)
        self.diodes, self.steady = diodes, steady
        self.sources = sources
        self.signals: list[str] = []

    def make(self) -> str:
        """The file of a random harness."""
        r = self.random
        self.supply()
        for _ in range(r.randrange(3, 7)):
            self.branch()
        for _ in range(r.randrange(0, 3)):
            a, b = r.sample(self.feeds, 2)
            self.wire(a, b)
        for _ in range(r.randrange(0, 3)):
            if len(self.backs) > 1:
                a, b = r.sample(self.backs, 2)
                self.wire(a, b)
        return self.text()

    def supply(self) -> None:
        """Battery, maybe an isolator in either lead, maybe a second source, a strip and returns."""
        r = self.random
        battery = self.item("G", f"is: battery, volts: {r.choice([12.2, 12.6, 13.8])} V, inner resistance: 0.012 ohm")
        plus, minus = f"{battery}:+", f"{battery}:-"
        if r.random() < 0.4:
            switch = self.item("S", 'is: switch, contacts: {"1-2": on}')
            self.wire(plus, f"{switch}:1", 10)
            plus = f"{switch}:2"
        elif r.random() < 0.3:
            switch = self.item("S", 'is: switch, contacts: {"1-2": on}')
            self.wire(minus, f"{switch}:1", 10)
            minus = f"{switch}:2"
        strip = self.item("X", "is: terminal strip, ways: 3, joined: all")
        self.wire(plus, f"{strip}:1", 6)
        earth = self.item("XE", "is: earth point")
        back = self.splice()
        self.wire(minus, back, 6)
        self.wire(back, earth, 6)
        self.feeds, self.backs = [f"{strip}:2"], [back, earth]
        if self.sources and r.random() < 0.25:
            charger = self.item("G", "is: source, volts: 13.5 V, inner resistance: 0.5 ohm")
            self.wire(f"{charger}:+", f"{strip}:3", 2.5)
            self.wire(f"{charger}:-", back, 2.5)

    def branch(self) -> None:
        """A fuse and what it feeds."""
        r = self.random
        fuse = self.item("F", f"is: fuse, rating: 15 A, cold resistance: {r.choice([0.003, 0.006, 0.02])} ohm")
        self.wire(r.choice(self.feeds), f"{fuse}:1", 1)
        here = self.splice()
        self.wire(f"{fuse}:2", here, 1)
        self.feeds.append(here)
        if r.random() < 0.5:
            self.backs.append(self.splice())
            self.wire(self.backs[-1], r.choice(self.backs[:-1]), 1)
        makers = [self.switched, self.switched, self.relayed, self.relayed, self.changeover]
        makers += [self.ladder, self.electronics, self.plain]
        for _ in range(r.randrange(1, 3)):
            r.choice(makers)(here)

    def load(self, a: str, b: str) -> None:
        """A load of a random sort between two points; now and then its case is its return."""
        r = self.random
        watts = r.choice([2, 5, 21, 55, 100])
        kind = r.choice(["load", "lamp", "resistor"])
        if self.steady and r.random() < 0.4:
            name = self.item("M", f"is: load, amps: {r.choice([0.3, 1.5, 4])} A, at: 12 V, draws: constant current")
        elif r.random() < 0.2:
            name = self.item("M", f"is: load, watts: {watts} W, at: 12 V, case on chassis: true")
            self.wire(a, f"{name}:1")
            return
        else:
            drawn = r.choice([f"watts: {watts} W", f"ohms: {144 / watts:.3f} ohm", f"amps: {watts / 12:.3f} A"])
            name = self.item("M", f"is: {kind}, {drawn}, at: 12 V")
        if self.diodes and r.random() < 0.6:
            diode = self.item("R", "is: diode")
            ends = ("A", "K") if r.random() < 0.8 else ("K", "A")
            self.wire(a, f"{diode}:{ends[0]}")
            a = f"{diode}:{ends[1]}"
        self.wire(a, f"{name}:1")
        self.wire(f"{name}:2", b)

    def switch(self, a: str) -> str:
        """A switch after a point; returns its far side."""
        name = self.item("S", 'is: switch, contacts: {"1-2": on}')
        self.wire(a, f"{name}:1")
        out = self.splice()
        self.wire(f"{name}:2", out)
        return out

    def plain(self, here: str) -> None:
        """A load that nothing switches."""
        self.load(here, self.random.choice(self.backs))

    def switched(self, here: str) -> None:
        """Loads behind a switch; now and then the switch is in the return."""
        r = self.random
        if r.random() < 0.2:
            low = self.splice()
            self.load(here, low)
            self.wire(self.switch(low), r.choice(self.backs))
            return
        out = self.switch(here)
        for _ in range(r.randrange(1, 3)):
            self.load(out, r.choice(self.backs))
        self.signals.append(out)

    def relay(self, contact: str) -> str:
        """A relay whose coil hangs on a switch, another relay's output, or a contact of its own."""
        r = self.random
        thresholds = r.choice(["pulls at: 8 V, releases at: 2 V", "pulls at: 7.2 V, releases at: 1.2 V"])
        name = self.item("K", f"is: relay, contact: {contact}, coil: {{volts: 12 V, ohms: 85 ohm, {thresholds}}}")
        control = r.choice(self.signals) if self.signals and r.random() < 0.6 else self.switch(r.choice(self.feeds))
        if r.random() < 0.15:
            low = self.splice()
            self.wire(control, f"{name}:86")
            self.wire(f"{name}:85", low)
            self.wire(self.switch(low), r.choice(self.backs))
        else:
            self.wire(control, f"{name}:86")
            self.wire(f"{name}:85", r.choice(self.backs))
        return name

    def relayed(self, here: str) -> None:
        """A relay that makes or breaks; now and then it holds itself or drives the next."""
        r = self.random
        make = r.random() < 0.7
        name = self.relay("make" if make else "break")
        out = self.splice()
        self.wire(here, f"{name}:30", 1)
        self.wire(f"{name}:{'87' if make else '87a'}", out, 1)
        self.load(out, r.choice(self.backs))
        if r.random() < 0.5:
            self.signals.append(out)
        if make and r.random() < 0.25:
            self.wire(out, f"{name}:86")

    def changeover(self, here: str) -> None:
        """Common to one load or the other."""
        name = self.relay("changeover")
        self.wire(here, f"{name}:30", 1)
        for terminal in ("87", "87a"):
            out = self.splice()
            self.wire(f"{name}:{terminal}", out)
            self.load(out, self.random.choice(self.backs))

    def ladder(self, here: str) -> None:
        """Two rails of splices with rungs, and a switch across."""
        r = self.random
        rails = [[here], [here]]
        for rail in rails:
            for _ in range(r.randrange(1, 4)):
                rail.append(self.splice())
                self.wire(rail[-2], rail[-1])
        self.wire(rails[0][-1], rails[1][-1])
        bridge = self.item("S", 'is: switch, contacts: {"1-2": on, "1-3": off}')
        self.wire(rails[0][1], f"{bridge}:1")
        self.wire(f"{bridge}:2", rails[1][1])
        for rail in rails:
            self.load(rail[-1], r.choice(self.backs))
        dangling = self.splice()
        self.wire(f"{bridge}:3", dangling)
        if r.random() < 0.5:
            self.load(dangling, self.splice())

    def electronics(self, here: str) -> None:
        """A regulator, a sensor on it, a relay board that listens."""
        r = self.random
        back = r.choice(self.backs)
        regulator = self.item("T", "is: regulator, gives: 5 V")
        self.wire(here, f"{regulator}:IN+")
        self.wire(f"{regulator}:IN-", back)
        sensor = self.item("B", "is: sensor, supply: 5 V, signal: {normal: 2..3 V, dry: 4.5..5 V, unplugged: 0 V}")
        self.wire(f"{regulator}:OUT+", f"{sensor}:+")
        self.wire(f"{regulator}:OUT-", f"{sensor}:-")
        given = "{pulls at: 4 V, releases at: 3.5 V, ohms: 10 kohm}"
        board = self.item("K", f"is: relay board, supply: 12 V, input: {given}")
        self.wire(here, f"{board}:+")
        self.wire(f"{board}:-", back)
        self.wire(f"{sensor}:S", f"{board}:IN")
        self.wire(here, f"{board}:COM")
        for terminal in ("NO", "NC"):
            out = self.splice()
            self.wire(f"{board}:{terminal}", out)
            self.load(out, r.choice(self.backs))
            self.signals.append(out)


def random_harness(seed: int, *, diodes: bool = False, steady: bool = False, sources: bool = True) -> str:
    """A random harness file; `diodes`: some loads sit behind one; `steady`: some draw a constant current;
    `sources`: there may be a second one."""
    return Maker(seed, diodes=diodes, steady=steady, sources=sources).make()

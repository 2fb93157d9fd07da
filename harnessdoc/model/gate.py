"""What is said of a plug before it is cut: go or no go, point by point, and each cavity as it will be cut.

Values only: `checks.gate` judges, the work sheet prints."""

from __future__ import annotations

from enum import Enum

from harnessdoc.model.harness import Wire
from harnessdoc.model.points import Point
from harnessdoc.model.record import record


class Standing(Enum):
    """How a point stands; `ASK`: nothing in the file can tell, a person must answer."""

    MET = "met"
    NOT_MET = "NOT MET"
    ASK = "to be answered"


@record(frozen=True)
class GatePoint:
    """One thing that must hold. `key`: what an answer is given under. `text`: how it is, `todo`: what to do; a `notes`
    line each for what else belongs to it."""

    key: str
    standing: Standing
    text: str
    todo: str = ""
    notes: tuple[str, ...] = ()


@record(frozen=True)
class CutCavity:
    """One cavity that will be cut, with its wires. `identified`: their far ends are known. `stub_mm`: as stated."""

    point: Point
    wires: tuple[Wire, ...]
    legend: str = ""
    identified: bool = True
    stub_mm: float | None = None


@record(frozen=True)
class Gate:
    """The answer for one plug. `cavities`: those that will be cut, in working order; `cut_already`: their names."""

    plug: str
    points: tuple[GatePoint, ...]
    cavities: tuple[CutCavity, ...] = ()
    cut_already: tuple[str, ...] = ()

    @property
    def go(self) -> bool:
        """Whether the plug may be cut: every point is met, none is left to be answered."""
        return all(point.standing is Standing.MET for point in self.points)

    def text(self) -> str:
        """All of it, for a terminal: the verdict first, then what stands in the way, then what is met."""
        lines = [f"{'GO' if self.go else 'NO GO'}: {self.plug}, {self._counted()}"]
        for standing in (Standing.NOT_MET, Standing.ASK, Standing.MET):
            for point in self.points:
                if point.standing is standing:
                    lines += self._told(point)
        return "\n".join("".join(c if c.isprintable() else "?" for c in line) for line in lines) + "\n"

    def data(self) -> dict[str, object]:
        """The same for programs: plain values in a fixed order."""
        return {
            "plug": self.plug,
            "go": self.go,
            "to cut": [str(one.point) for one in self.cavities],
            "cut already": list(self.cut_already),
            "points": [
                {"key": one.key, "stands": one.standing.value, "text": one.text, "do": one.todo, "notes": [*one.notes]}
                for one in self.points
            ],
        }

    def _counted(self) -> str:
        cut = f"; {len(self.cut_already)} cut already" if self.cut_already else ""
        many = len(self.cavities)
        return f"{many} {'cavity' if many == 1 else 'cavities'} to cut{cut}"

    def _told(self, point: GatePoint) -> list[str]:
        value = "60 mm" if point.key == "stub" else "yes"
        answer = f" (answer: {point.key}={value})" if point.standing is Standing.ASK else ""
        todo = [f"    do: {point.todo}{answer}"] if point.todo and point.standing is not Standing.MET else []
        return [f"  {point.standing.value}: {point.text}", *(f"    {note}" for note in point.notes), *todo]

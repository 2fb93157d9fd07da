"""Sets of things that are joined two by two: a forest, each set known by its root."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Generic, TypeVar

T = TypeVar("T", bound=Hashable)


class Joining(Generic[T]):
    """Disjoint sets (union and find with path halving)."""

    def __init__(self) -> None:
        self.above: dict[T, T] = {}

    def add(self, thing: T) -> None:
        """Let a thing be a set of its own, unless it is in one."""
        self.above.setdefault(thing, thing)

    def root(self, thing: T) -> T:
        """The thing that stands for the set. Raises KeyError for one that was never added."""
        above = self.above
        while above[thing] != thing:
            above[thing] = above[above[thing]]
            thing = above[thing]
        return thing

    def join(self, a: T, b: T) -> None:
        """Make one set of both."""
        self.add(a)
        self.add(b)
        first, second = self.root(a), self.root(b)
        if first != second:
            self.above[second] = first

    def numbers(self) -> dict[T, int]:
        """Each thing's set, numbered in the order in which things were added."""
        numbers: dict[T, int] = {}
        return {thing: numbers.setdefault(self.root(thing), len(numbers)) for thing in self.above}

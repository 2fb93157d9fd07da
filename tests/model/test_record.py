"""Records behave as `dataclasses.dataclass(frozen=True)` does: each case is put to both."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from functools import cached_property
from typing import Any

import pytest

from harnessdoc.model.record import record


def _made(decorate: Callable[..., Any]) -> Any:
    @decorate(frozen=True)
    class Base:
        first: str
        second: int = 2
        many: dict[str, int] = dataclasses.field(default_factory=dict)
        where: str = dataclasses.field(default="nowhere", compare=False, repr=False, kw_only=True)

        def __post_init__(self) -> None:
            if self.second < 0:
                raise ValueError("below nothing")

        @cached_property
        def doubled(self) -> int:
            return self.second * 2

    @decorate(frozen=True)
    class Made(Base):
        third: tuple[int, ...] = ()

    return Made


@pytest.mark.parametrize("decorate", [record, dataclasses.dataclass])
def test_fields_defaults_equality_and_copies(decorate: Callable[..., Any]) -> None:
    made = _made(decorate)
    one, other = made("a", where="here"), made("a", 2, {})
    assert one == other
    assert one.where == "here"
    assert other.where == "nowhere"
    assert one != made("b")
    assert one != ("a", 2, {}, ())
    assert one.many is not other.many
    assert one.doubled == 4
    assert one.doubled == 4
    assert dataclasses.replace(one, third=(1,)) == made("a", third=(1,))
    assert [field.name for field in dataclasses.fields(made)] == ["first", "second", "many", "where", "third"]
    assert repr(one).endswith("Made(first='a', second=2, many={}, third=())")
    assert made.__match_args__ == ("first", "second", "many", "third")


@pytest.mark.parametrize("decorate", [record, dataclasses.dataclass])
def test_what_is_refused(decorate: Callable[..., Any]) -> None:
    made = _made(decorate)
    one = made("a")
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.first = "b"
    with pytest.raises(dataclasses.FrozenInstanceError):
        del one.first
    for wrong in (lambda: made(), lambda: made("a", 1, {}, (), "here"), lambda: made("a", fourth=1)):
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(ValueError, match="below nothing"):
        made("a", -1)
    with pytest.raises(TypeError):  # a dict in it can't be hashed
        hash(one)


@pytest.mark.parametrize("decorate", [record, dataclasses.dataclass])
def test_equal_ones_hash_alike(decorate: Callable[..., Any]) -> None:
    @decorate(frozen=True)
    class Pair:
        a: int
        b: int = dataclasses.field(default=0, compare=False)

    assert len({Pair(1, 1), Pair(1, 2), Pair(2)}) == 2


def test_only_frozen_ones_are_made() -> None:
    with pytest.raises(TypeError):
        record(frozen=False)

"""Pages that are drawn only when somebody asks for them, so that thousands of labels take little memory."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import overload

from harnessdoc.sheet.page import Page

Maker = Callable[[], Page]


class LazyPages(Sequence[Page]):
    """A sequence of pages, each drawn anew whenever it is asked for."""

    def __init__(self, makers: Sequence[Maker] = (), done: Callable[[int], None] | None = None) -> None:
        """Take one maker a page. `done`: told how many pages were drawn when all are gone through in order."""
        self.makers = tuple(makers)
        self._done = done

    def __len__(self) -> int:
        """How many pages there are."""
        return len(self.makers)

    @overload
    def __getitem__(self, index: int) -> Page: ...
    @overload
    def __getitem__(self, index: slice) -> LazyPages: ...
    def __getitem__(self, index: int | slice) -> Page | LazyPages:
        """Draw a page; of a slice none yet."""
        return LazyPages(self.makers[index]) if isinstance(index, slice) else self.makers[index]()

    def __iter__(self) -> Iterator[Page]:
        """Draw one page after the other."""
        for number, maker in enumerate(self.makers, 1):
            yield maker()
            if self._done is not None:
                self._done(number)

    def __add__(self, more: LazyPages) -> LazyPages:
        """These pages, then more; told as these are."""
        return LazyPages(self.makers + more.makers, self._done)


def drawn_already(pages: Sequence[Page]) -> LazyPages:
    """Return pages that exist as a sequence of the same kind."""
    return LazyPages([lambda page=page: page for page in pages])  # type: ignore[misc]

"""Templates to HTML: everything that comes from the file is escaped, and made fit to stand in a page.

Knows no harness."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

_UNFIT = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")


def fit(value: Any) -> Any:
    """Replace what no HTML text may hold (controls, halves of surrogate pairs) by the replacement character."""
    return _UNFIT.sub("\ufffd", value) if type(value) is str else value


@lru_cache(maxsize=1)
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("harnessdoc.records", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=fit,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def render(template: str, **values: Any) -> bytes:
    """A page as UTF-8. `template`: a file's name in the folder `templates`."""
    return _environment().get_template(template).render(**values).encode("utf-8")

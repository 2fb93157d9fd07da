"""A drawn page as an SVG that stands inside an HTML page, and the lettering that goes with it.

Nothing in it is fetched; it has no ids but its title's and description's, so many can stand in one page."""

from __future__ import annotations

import base64
from collections.abc import Iterable
from typing import Final
from xml.etree import ElementTree

from markupsafe import Markup

from harnessdoc.sheet import lettering, typeface
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.svg import number, write_svg

ALWAYS: Final = frozenset(chr(code) for code in range(0x20, 0x7F)) | frozenset("…–−≈²°ΩµÄÖÜäöüß")
"""Characters that are carried whatever a page says, so that most pages carry the same few glyphs."""


def inline_svg(page: Page, name: str, title: str, description: str) -> Markup:
    """The page as an `svg` element with a title and a description for who can't see it.

    `name`: a start for their ids, unique in the HTML page, of letters, digits and hyphens. The page may hold no links,
    pictures, symbols or clips: ValueError, for their ids would clash."""
    root = ElementTree.fromstring(write_svg(page, carry_font=False))
    for element in root.iter():
        element.tag = element.tag.partition("}")[2]
    for needless in [
        child for child in root if child.tag in ("title", "desc") or (child.tag == "defs" and not len(child))
    ]:
        root.remove(needless)
    for element in root.iter():
        if element is not root and (element.get("id") or element.tag not in _PLAIN):
            raise ValueError(f"a {element.tag} can't stand in a chart inside a page")
    for attribute in ("style", "width", "height", "baseProfile", "version"):
        root.attrib.pop(attribute, None)
    root.attrib |= {
        "class": "drawn",
        "width": f"{number(page.width_mm)}mm",
        "height": f"{number(page.height_mm)}mm",
        "role": "img",
        "aria-labelledby": f"{name}-title",
        "aria-describedby": f"{name}-desc",
    }
    for tag, text in (("desc", description), ("title", title)):
        told = ElementTree.Element(tag, id=f"{name}-{tag}")
        told.text = lettering.clean(text)
        root.insert(0, told)
    return Markup(ElementTree.tostring(root, encoding="unicode", short_empty_elements=False))


_PLAIN: Final = frozenset({"g", "line", "path", "rect", "circle", "text", "title", "defs", "desc"})


def lettering_css(texts: Iterable[str]) -> Markup:
    """Two @font-face rules that carry what the texts need; characters that the typeface lacks are the reader's own."""
    wanted = ALWAYS | set("".join(texts))
    return Markup("".join(_face(frozenset(wanted & typeface.characters(bold)), bold) for bold in (False, True)))


def _face(wanted: frozenset[str], bold: bool) -> str:
    data = base64.b64encode(typeface.subset(wanted, bold)).decode()
    weight = "bold" if bold else "normal"
    source = f"src:url(data:font/woff;base64,{data}) format('woff')"
    return f"@font-face{{font-family:'{typeface.FAMILY}';font-weight:{weight};{source}}}"

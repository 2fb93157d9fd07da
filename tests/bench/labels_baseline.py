"""The yardstick for label sheets: qrcode alone on the payloads, and reportlab drawing equal sheets.

Run by `labels.py` in a process of its own; uses nothing of harnessdoc, so that it cannot share its faults.
Equal means: the same payloads, level M, the same mask search, the same number of labels on a page and of text
lines on a label, each symbol one path of horizontal runs at the same module size.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import qrcode
from qrcode.constants import ERROR_CORRECT_M
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

COLUMNS, ROWS = 5, 13
LEFT_MM, TOP_MM, ACROSS_MM, DOWN_MM = 4.75, 10.7, 40.6, 21.2
MODULE_MM = 4 * 25.4 / 300


def texts_and_payload(number: int) -> tuple[list[str], str]:
    """What label `number` says, five lines, and what its symbol holds; `labels.py` makes the same."""
    lines = [f"W{number}", f"X1:{number}", f"→ K{number}:85", "RD/BK 2.5 mm²", f"Circuit {number}"]
    return lines, f"https://records.example/os-01/K{number:05d}/"


def symbol(payload: str) -> list[list[bool]]:
    """The module matrix, shortest version, mask chosen as the standard asks, by qrcode alone."""
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0)
    code.add_data(payload, optimize=0)
    code.make(fit=True)
    return code.modules


def draw(canvas: Canvas, x: float, y: float, lines: Sequence[str], rows: list[list[bool]]) -> None:
    """One label, its top left corner at (x, y) points, y up."""
    canvas.setFont("Helvetica-Bold", 19.5)
    canvas.drawString(x, y - 5 * mm, lines[0])
    canvas.setFont("Helvetica", 9.7)
    for index, line in enumerate(lines[1:]):
        canvas.drawString(x, y - (8.4 + 3.3 * index) * mm, line)
    step = MODULE_MM * mm
    left, top = x + 20 * mm, y - 4 * step
    path = canvas.beginPath()
    for row_number, row in enumerate(rows):
        column = 0
        while column < len(row):
            if not row[column]:
                column += 1
                continue
            start = column
            while column < len(row) and row[column]:
                column += 1
            path.rect(left + start * step, top - (row_number + 1) * step, (column - start) * step, step)
    canvas.drawPath(path, stroke=0, fill=1)


def main(count: int, out: Path) -> None:
    """Write `count` labels to a PDF."""
    canvas = Canvas(str(out), pagesize=(210 * mm, 297 * mm), pageCompression=1, invariant=1)
    for index in range(count):
        if index and index % (COLUMNS * ROWS) == 0:
            canvas.showPage()
        row, column = divmod(index % (COLUMNS * ROWS), COLUMNS)
        lines, payload = texts_and_payload(index + 1)
        x, y = (LEFT_MM + 1 + column * ACROSS_MM) * mm, (297 - TOP_MM - 1 - row * DOWN_MM) * mm
        draw(canvas, x, y, lines, symbol(payload))
    canvas.save()


if __name__ == "__main__":
    main(int(sys.argv[1]), Path(sys.argv[2]))

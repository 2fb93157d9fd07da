"""A whole run of labels: chosen, imposed, measured at 600 dpi, read, told of, written."""

from __future__ import annotations

from collections import Counter
from io import BytesIO
from pathlib import Path

import pypdf
import pytest
import zxingcpp
from PIL import Image

from harnessdoc.labels.files import run_files
from harnessdoc.labels.label import Role
from harnessdoc.labels.run import LabelRun, label_run
from harnessdoc.labels.select import UnknownNameError
from harnessdoc.labels.sheets import lay_out
from harnessdoc.labels.stock import offered, read_stock
from harnessdoc.model.harness import Harness, Title
from harnessdoc.reading import read_harness
from harnessdoc.routing import Routing, route_harness
from harnessdoc.sheet.output import pdf_bytes, png_bytes
from tests.labels.test_things import HARNESS
from tests.sheet.measure import overlaps, text_boxes

SAMPLE = Path(__file__).resolve().parents[2] / "sample_harness"
Data = tuple[Harness, Routing]


@pytest.fixture(scope="module")
def sample() -> Data:
    harness = read_harness(SAMPLE)
    return harness, route_harness(harness)


@pytest.fixture(scope="module")
def run(sample: Data) -> LabelRun:
    return label_run(*sample, offered(), mark="4F2A")


def test_every_label_is_printed_refused_or_spare(sample: Data, run: LabelRun) -> None:
    harness, _ = sample
    subjects = [one.label.subject for one in run.choices]
    assert len(set(subjects)) == len(subjects)
    roles = Counter(one.label.role for one in run.choices)
    assert roles[Role.WIRE_END] == 2 * len(harness.wires)
    assert roles[Role.STUB] == len(harness.stubs)
    assert roles[Role.SPLICE] == len(harness.splices)
    assert roles[Role.PLUG] == len(harness.plugs)
    assert roles[Role.FUSE] + roles[Role.RELAY] + roles[Role.ITEM] == len(harness.items)
    assert roles[Role.TRUNK] == 2 * len(harness.runs)
    assert len(run.labels) + len(run.refused) + len(run.spare) == len(subjects)


def test_sections_keep_the_working_order(run: LabelRun) -> None:
    place = {one.label.subject: index for index, one in enumerate(run.choices)}
    for section in run.sections:
        order = [place[one.label.subject] for one in section.labels]
        assert order == sorted(order)


def test_few_labels_of_the_sample_lose_a_text_and_none_its_number(run: LabelRun) -> None:
    """It was 53 of 212 that lost letters of a title. What is lost here is told, and stands in the engine bay, on print
    zones of 6.4 mm."""
    assert len(run.shortened) <= 10
    assert not any(face.arrangement.number_cut for one in run.labels for face in one.faces)
    assert all(one.text.startswith("left out: ") for one in run.shortened)


@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_every_symbol_of_the_sample_is_read_from_its_sheet(sample: Data, dpi: int) -> None:
    made = label_run(*sample, offered(), dpi=dpi)
    wanted = Counter(one.label.payload for one in made.labels for face in one.faces if face.symbol is not None)
    assert sum(wanted.values()) > 0.85 * len(made.labels)
    found: Counter[str | None] = Counter()
    for section in made.sections:
        for page in section.pages:
            image = Image.open(BytesIO(png_bytes(page, dpi))).convert("L")
            codes = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
            found.update(code.bytes.decode() for code in codes)
    assert found == wanted


# Stock: left and top of the first label, steps across and down, size, columns and rows; typed by hand, mm.
GEOMETRY = {
    "a4-65-38x21": (4.75, 10.7, 40.6, 21.2, 38.1, 21.2, 5, 13),
    "a4-24-63x34": (7.25, 12.9, 66.0, 33.9, 63.5, 33.9, 3, 8),
    "a4-39-flag-25x20": (4.0, 12.5, 68.0, 21.0, 66.0, 20.0, 3, 13),
    "letter-30-67x25": (4.8, 12.7, 69.85, 25.4, 66.7, 25.4, 3, 10),
}


@pytest.mark.parametrize("offset", [(0.0, 0.0), (-0.6, 0.8)])
@pytest.mark.parametrize("name", GEOMETRY)
def test_labels_lie_where_they_should_measured_at_600_dpi(name: str, offset: tuple[float, float]) -> None:
    """Outlines of the corner labels, and their symbols' corners, on the rendered page: within 0.1 mm."""
    left, top, across, down, width, height, columns, rows = GEOMETRY[name]
    made = _full_sheet(name, offset)
    image = Image.open(BytesIO(png_bytes(made.pages[0], 600))).convert("L")
    for column, row in ((0, 0), (columns - 1, 0), (0, rows - 1), (columns - 1, rows - 1)):
        x, y = left + across * column + offset[0], top + down * row + offset[1]
        low = y + height / 2  # below the corner's curve
        for wanted, at in ((x, x), (x + width, x + width)):
            assert _middle(image, (at - 0.8, low - 0.6, at + 0.8, low - 0.2), 0) == pytest.approx(wanted, abs=0.1)
        for wanted in (y, y + height):
            box = (x + width / 2, wanted - 0.8, x + width / 2 + 0.4, wanted + 0.8)
            assert _middle(image, box, 1) == pytest.approx(wanted, abs=0.1)


def _full_sheet(name: str, offset: tuple[float, float]) -> LabelRun:
    """A sheet of labels that say `I` and nothing else, outlined."""
    from harnessdoc.labels.faces import lay
    from harnessdoc.labels.fit import fit
    from harnessdoc.labels.label import Label
    from harnessdoc.labels.printing import Printed
    from harnessdoc.labels.run import run_of

    stock = read_stock(name)
    shape = stock.shapes[-2] if "plate" in stock.shapes else stock.shape
    whole = fit(3.0, stock, shape)
    one = Printed(lay(Label(Role.ITEM, "I", "I", ()), whole, stock, 600), stock, 600, whole)
    return run_of([one] * stock.count, Title("t", "1"), {}, offset=offset, cut_marks=True)


def _middle(image: Image.Image, box: tuple[float, float, float, float], axis: int) -> float:
    """Middle of the ink in a part of the page, mm from the page's left or upper edge."""
    dot = 25.4 / 600
    dots = [round(one / dot) for one in box]
    ink = image.crop(tuple(dots)).point(lambda level: 255 if level < 230 else 0).getbbox()
    assert ink is not None
    return (dots[axis] + (ink[axis] + ink[axis + 2]) / 2) * dot


def test_symbols_lie_on_the_dots_at_their_place_measured(sample: Data) -> None:
    """The first black module of a finder, its outer corner, on the page at 600 dpi: within 0.1 mm, offset included."""
    made = label_run(*sample, offered(), dpi=600, offset=(0.4, 0.3), only=["X4"])
    section = made.sections[0]
    image = Image.open(BytesIO(png_bytes(section.pages[0], 600))).convert("L")
    dot = 25.4 / 600
    for one in section.labels[:20]:
        for face in one.faces:
            if face.symbol is None:
                continue
            corner = (face.symbol.x, face.symbol.y)
            near = tuple(round(at / dot) - 20 for at in corner)
            ink = image.crop((*near, near[0] + 40, near[1] + 40)).point(lambda level: 255 if level < 128 else 0)
            box = ink.getbbox()
            assert box is not None
            for axis in (0, 1):
                assert (near[axis] + box[axis]) * dot == pytest.approx(corner[axis], abs=0.1)
                assert corner[axis] / dot == pytest.approx(round(corner[axis] / dot), abs=1e-6)


def test_text_stays_on_its_face_and_apart(run: LabelRun) -> None:
    for section in run.sections:
        pages = text_boxes(pdf_bytes(section.pages))
        for sheet, boxes in enumerate(pages):
            assert not overlaps(boxes)
            faces = [face.box for one in section.labels if one.sheet == sheet for face in one.faces]
            for box in boxes:
                if box.text.startswith("OS-01 ·"):
                    continue
                assert box.cap_mm >= 2.49
                assert any(
                    face.x - 0.3 <= box.x0 and box.x1 <= face.right + 0.3
                    and face.y - 0.3 <= box.y0 and box.y1 <= face.bottom + 0.3
                    for face in faces
                ), box.text  # fmt: skip


def test_notes_tell_stocks_refusals_places_and_reasons(run: LabelRun) -> None:
    pages = text_boxes(pdf_bytes(run.notes))
    for boxes in pages:
        assert not overlaps(boxes)
    words = " ".join(box.text for boxes in pages for box in boxes)
    for wanted in (
        "on a4-39-flag-25x20 (",
        "39 of 66 x 20 mm), for 300 dpi.",
        "Labels that nothing offered works for",
        "W5 at XE1",
        "Ends without a label of their own",
        "Where each label goes",
        "76 mm from the terminal:",
        "More labels along long wires",
        "Why this stock",
        "it does not hold all words",
        "70 °C assumed",
        "`records: HTTPS://RECORDS.EXAMPLE/OS-01`",
        "4F2A",
    ):
        assert wanted in words


def test_each_used_sheet_starts_where_it_is_free(sample: Data) -> None:
    starts = {"a4-65-38x21": 60, "a4-24-63x34": 24}
    made = label_run(*sample, offered(), start=starts)
    for section in made.sections:
        first = section.labels[0]
        assert (first.sheet, first.position) == (0, starts.get(section.stock.name, 1))
    by_number = label_run(*sample, offered(), start=3)
    assert {section.stock.name: section.labels[0].position for section in by_number.sections}["a4-65-38x21"] == 3
    assert {section.labels[0].position for section in by_number.sections} == {1, 3}
    with pytest.raises(ValueError, match="labels 1 to 24; it can't start at 25"):
        label_run(*sample, offered(), start={"a4-24-63x34": 25})


def test_offsets_differ_by_stock_and_have_bounds(sample: Data) -> None:
    moved = label_run(*sample, offered(), offset={"a4-24-63x34": (1.0, 0.5)})
    plain = label_run(*sample, offered())
    for one, other in zip(moved.labels, plain.labels, strict=True):
        shift = (1.0, 0.5) if one.stock.name == "a4-24-63x34" else (0.0, 0.0)
        assert (one.box.x - other.box.x, one.box.y - other.box.y) == pytest.approx(shift)
    with pytest.raises(ValueError, match="at most 10 mm"):
        label_run(*sample, offered(), offset=(11.0, 0.0))


def test_before_a_cut_only_its_labels_are_made_in_order_of_cavities(sample: Data) -> None:
    made = label_run(*sample, offered(), before_cut="X4")
    subjects = [one.label.subject for one in made.choices]
    assert subjects[0] == "plug X4"
    assert subjects[1:7] == ["stub X4:1", "W70 at K4:30", "stub X4:2", "W12 at X3:1", "stub X4:3", "W30 at J5"]
    assert "W93 at tail" in subjects  # sits in X4:18 still
    assert "stub X4:18" in subjects
    with pytest.raises(UnknownNameError):
        label_run(*sample, offered(), before_cut="X99")


def test_progress_is_told_to_the_end(sample: Data) -> None:
    told: list[tuple[int, int]] = []
    made = label_run(*sample, offered(), progress=lambda done, total: told.append((done, total)))
    total = len(made.choices)
    assert told[0] == (0, total)
    assert told[-1] == (total, total)
    assert [done for done, _ in told] == sorted(done for done, _ in told)
    drawn: list[tuple[int, int]] = []
    run_files(made, progress=lambda done, total: drawn.append((done, total)))
    assert drawn[-1] == (made.sheets, made.sheets)
    assert [done for done, _ in drawn] == sorted(done for done, _ in drawn)


def test_files_are_one_pdf_for_sheets_and_strips_and_dots_for_rolls() -> None:
    routing = route_harness(HARNESS)
    both = label_run(HARNESS, routing, offered(["a4-189-plate-25x10", "tape-12", "sleeve-2to1"]))
    files = run_files(both, "OS-01 labels")
    assert {path.partition("/")[0] for path in files} == {"labels.pdf", "labels"}
    assert {path for path in files if path.endswith(".pdf")} == {"labels.pdf", "labels/tape-12.pdf"}
    tape = next(section for section in both.sections if section.stock.name == "tape-12")
    dots = [path for path in files if path.startswith("labels/tape-12/")]
    assert dots == [f"labels/tape-12/{number:04d}.png" for number in range(1, len(tape.labels) + 1)]
    assert files == run_files(
        label_run(HARNESS, routing, offered(["a4-189-plate-25x10", "tape-12", "sleeve-2to1"])), "OS-01 labels"
    )
    sleeves = run_files(label_run(HARNESS, routing, offered(["sleeve-2to1"])))
    assert any(path.startswith("labels/sleeve-2to1-") and path.endswith(".pdf") for path in sleeves)


def test_sections_have_bookmarks(sample: Data, run: LabelRun) -> None:
    reader = pypdf.PdfReader(BytesIO(run_files(run, "OS-01 labels")["labels.pdf"]))
    titles = [one.title for one in reader.outline]  # type: ignore[union-attr]
    assert titles == [*(section.name for section in run.sections), "notes"]
    assert len(reader.pages) == len(run.pages)


def test_no_labels_give_the_notes_alone() -> None:
    empty = Harness(Title("t", "1"))
    made = label_run(empty, route_harness(empty), offered())
    assert (made.sheets, made.labels, len(made.notes)) == (0, (), 1)
    assert list(run_files(made)) == ["labels.pdf"]
    assert lay_out([], empty.title, read_stock()).sheets == 0

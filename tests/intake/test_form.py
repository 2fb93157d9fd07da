"""The form's page: nothing of the user's file runs, nothing is asked for, and what it saves is read back."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from harnessdoc.intake.form import form_page
from harnessdoc.intake.survey import TEMPLATE, survey_rows
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness

SAMPLE = Path(__file__).parents[2] / "sample_harness"
NASTY = '</script><script>document.title="run"</script><img src=x onerror=alert(1)>&"\''


@pytest.fixture(scope="module")
def harness() -> Harness:
    return read_harness(SAMPLE)


def test_a_name_can_not_leave_its_block(harness: Harness) -> None:
    plug = replace(harness.plugs["X4"], name=NASTY, title=NASTY, place=NASTY)
    title = replace(harness.title, number=NASTY, title=NASTY)
    page = form_page(replace(harness, title=title, plugs={NASTY: plug}), NASTY, "x.csv").decode()
    assert page.count("<script") == 2
    assert page.count("</script>") == 2
    assert "<img" not in page
    data = re.search(r'id="data">(.*?)</script>', page)
    assert data is not None
    assert json.loads(data[1])["plug"] == NASTY


def test_the_page_asks_nobody(harness: Harness) -> None:
    page = form_page(harness, "X4", "survey-X4.csv").decode()
    assert not re.search(r"https?:|src=|url\(|@import|fetch\(|XMLHttp|\bhref=", page)
    assert "default-src 'none'" in page
    assert "unsafe" not in page
    assert len(page.encode()) < 20_000
    assert set(re.findall(r' name="([^"]+)"', page)) - {"viewport", "referrer"} == set(TEMPLATE) - {
        "plug",
        "cavity",
        "date",
    }
    assert form_page(harness, "X4", "survey-X4.csv").decode() == page


DRIVE = """
window.onerror = text => { document.title = "error: " + text; };
URL.createObjectURL = blob => { blob.text().then(text => {
  const out = document.createElement("pre"); out.id = "out"; out.textContent = JSON.stringify(text);
  document.body.append(out); }); return "#"; };
const set = (name, value) => { const field = form.elements[name]; field.value = value;
  form.dispatchEvent(new Event("input")); };
set("colour", "red/black"); set("size [mm2]", "2.5"); set("remarks", 'a "b", c; <b>');
form.requestSubmit();
set("drives", "high side"); set("legend", "+12V"); set("wire in it", "yes");
document.getElementById("next").click();
document.getElementById("back").click();
const wide = document.documentElement.scrollWidth, taps = "button,input[type=text],select,.choices label";
const small = [...document.querySelectorAll(taps)].filter(one => one.getBoundingClientRect().height < 44).length;
document.title = [form.elements["legend"].value, form.elements["drives"].value, wide <= innerWidth, small].join("|");
document.getElementById("save").click();
"""


@pytest.mark.skipif(shutil.which("chromium") is None, reason="no Chromium here")
def test_what_is_entered_in_a_browser_is_read_back(harness: Harness, tmp_path: Path) -> None:
    """The page as made, but for a policy that lets the test's own script in."""
    page = form_page(harness, "X4", "survey-X4.csv").decode()
    page = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", page)
    page = page.replace("</body>", f"<script>{DRIVE}</script></body>")
    (tmp_path / "form.html").write_text(page, "utf-8")
    command = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--dump-dom"]
    command += ["--disable-background-networking", "--disable-component-update", "--window-size=360,800"]
    command += [f"--user-data-dir={tmp_path / 'profile'}", "--virtual-time-budget=3000", f"file://{tmp_path}/form.html"]
    dom = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout
    assert "<title>+12V|high side|true|0</title>" in dom
    out = re.search(r'<pre id="out">(.*?)</pre>', dom, re.DOTALL)
    assert out is not None
    saved = tmp_path / "survey-X4.csv"
    saved.write_bytes(json.loads(html.unescape(out[1])).encode())
    _, _, (first, second) = survey_rows(saved)
    assert first.colour is not None
    assert first.size is not None
    assert (first.cavity, first.colour.code, first.size.area_mm2, first.remarks) == ("1", "RD/BK", 2.5, 'a "b", c; <b>')
    assert (second.cavity, second.drive, second.legend, second.present) == ("2", "high side", "+12V", True)
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", second.date or "")

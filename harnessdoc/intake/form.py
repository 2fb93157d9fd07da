"""A survey's form for a phone: one HTML file a plug, one cavity at a time, that asks nobody for anything.

It works from disk. What is entered stays in the browser until it is saved as a CSV, which `intake` reads. Names from
the harness stand in a block of JSON that no browser runs, and reach the page as text only."""

from __future__ import annotations

import base64
import hashlib
import html
import json
from typing import Final

from harnessdoc.intake.survey import TEMPLATE
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness

_WORDS: Final = {
    "colour": ("colour: base/tracer", "red/black", "text"),
    "size [mm2]": ("size, mm² (or 14 AWG)", "1.5", "text"),
    "volts key off": ("volts, key off, under load", "0", "decimal"),
    "volts key on": ("volts, key on, under load", "12.4", "decimal"),
    "loaded with": ("loaded with", "21 W lamp", "text"),
    "ohms to ground": ("ohms to ground, no supply (OL: open)", "OL", "text"),
    "ohms to supply": ("ohms to supply, no supply (OL: open)", "OL", "text"),
    "legend": ("legend on the housing", "", "text"),
    "what the machine does": ("what the machine does, worked from its own control", "", "text"),
    "stub length [mm]": ("stub to leave, mm", "60", "decimal"),
    "remarks": ("remarks", "", "text"),
}
"""Column to its label, a sample, and the keyboard that it wants."""
_CHOICES: Final = {
    "wire in it": ("wire in it?", (("", "?"), ("yes", "yes"), ("no", "no"))),
    "drives": ("drives", (("", "?"), ("high side", "+"), ("low side", "–"), ("sensor", "sensor"))),
}
_NOTHING: Final = "base-uri 'none'; form-action 'none'"
_BY_PROGRAM: Final = ("plug", "cavity", "date")

_STYLE: Final = """
:root{color-scheme:light dark;--line:#767676}
*{box-sizing:border-box}
body{font:16px/1.4 sans-serif;margin:0 auto;padding:8px 12px 96px;max-width:40rem;overflow-wrap:anywhere}
h1{font-size:1.15rem;margin:0 0 4px}
h2{font-size:1.6rem;margin:8px 0}
p{margin:4px 0}
.cautions{border:2px solid;padding:4px 8px;font-weight:bold;font-size:.9rem}
label,legend{display:block;font-weight:bold;padding:0}
.field,fieldset{margin:10px 0;padding:0;border:0}
input[type=text],select{width:100%;min-height:44px;font:inherit;padding:6px 8px;border:1px solid var(--line);
border-radius:4px}
button{min-height:44px;min-width:44px;font:inherit;font-weight:bold;padding:6px 12px;border:2px solid;border-radius:4px;
background:Canvas;color:CanvasText}
.choices{display:flex;flex-wrap:wrap;gap:8px}
.choices label{flex:1 0 auto;padding:0 4px;min-height:44px;display:flex;align-items:center;justify-content:center;
gap:6px;border:1px solid var(--line);border-radius:4px}
.choices input{width:22px;height:22px;margin:0}
nav{position:fixed;left:0;right:0;bottom:0;display:flex;gap:8px;padding:8px 12px;background:Canvas;
border-top:1px solid var(--line)}
nav button{flex:1}
:focus-visible{outline:3px solid Highlight;outline-offset:2px}
#said{min-height:1.4em}
"""

_SCRIPT: Final = r"""
"use strict";
const data = JSON.parse(document.getElementById("data").textContent);
const form = document.getElementById("form");
const by = id => document.getElementById(id);
const store = "survey " + data.mark + " " + data.plug;
let kept = {}, at = 0;
try { kept = JSON.parse(localStorage.getItem(store)) || {}; } catch (_) { kept = {}; }
if (typeof kept !== "object" || Array.isArray(kept)) kept = {};
const row = cavity => Object.prototype.hasOwnProperty.call(kept, " " + cavity) ? kept[" " + cavity] : {};
const today = () => {
  const now = new Date();
  const two = number => String(number).padStart(2, "0");
  return now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
};
function say(text) { by("said").textContent = text; }
function take() {
  const found = {};
  for (const [name, value] of new FormData(form)) if (String(value).trim()) found[name] = String(value).trim();
  const key = " " + data.cavities[at];
  if (Object.keys(found).length) {
    found.date = row(data.cavities[at]).date || today();
    kept[key] = found;
  } else delete kept[key];
  try { localStorage.setItem(store, JSON.stringify(kept)); }
  catch (_) { say("This browser keeps nothing: save the file before you leave this page."); }
  count();
}
function count() {
  by("count").textContent = data.cavities.filter(cavity => Object.keys(row(cavity)).length).length
    + " of " + data.cavities.length + " filled in";
}
function show(place) {
  at = Math.max(0, Math.min(data.cavities.length - 1, place));
  const cavity = data.cavities[at], found = row(cavity);
  by("name").textContent = data.plug + ":" + cavity;
  by("pick").selectedIndex = at;
  for (const field of form.elements) {
    if (!field.name) continue;
    const value = found[field.name] || "";
    if (field.type === "radio") field.checked = field.value === value;
    else field.value = value;
  }
  by("back").disabled = at === 0;
  by("next").disabled = at === data.cavities.length - 1;
  scrollTo(0, 0);
}
const cell = text => {
  const one = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(text) ? "\u00a0" + text.trimStart() : text;
  return '"' + one.replace(/"/g, '""') + '"';
};
function save() {
  take();
  const rows = [data.columns.map(cell).join(",")];
  for (const cavity of data.cavities) {
    const found = row(cavity);
    if (!Object.keys(found).length) continue;
    const all = Object.assign({}, found, {plug: data.plug, cavity: cavity});
    rows.push(data.columns.map(name => cell(all[name] || "")).join(","));
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob(["\ufeff" + rows.join("\r\n") + "\r\n"], {type: "text/csv"}));
  link.download = data.file;
  link.click();
  say("Saved as " + data.file + ", with " + (rows.length - 1) + " cavities.");
}
data.cavities.forEach((cavity, place) => {
  const option = document.createElement("option");
  option.textContent = cavity;
  option.value = String(place);
  by("pick").append(option);
});
form.addEventListener("input", take);
form.addEventListener("submit", event => { event.preventDefault(); take(); show(at + 1); });
by("pick").addEventListener("change", event => show(Number(event.target.value)));
by("back").addEventListener("click", () => show(at - 1));
by("next").addEventListener("click", () => show(at + 1));
by("save").addEventListener("click", save);
let asked = false;
by("forget").addEventListener("click", () => {
  if (!asked) { asked = true; say("Tap once more to forget all that was entered for this plug."); return; }
  asked = false; kept = {};
  try { localStorage.removeItem(store); } catch (_) { }
  show(0); count(); say("Forgotten.");
});
count();
show(0);
"""


def form_page(harness: Harness, plug: str, file: str) -> bytes:
    """The form for a plug as one HTML file. `file`: the name that it saves its CSV by.

    Raises KeyError for no such plug."""
    part = harness.plugs[plug]
    data = {
        "plug": plug,
        "mark": f"{harness.title.number} {harness.title.title}",
        "cavities": list(part.terminals),
        "columns": list(TEMPLATE),
        "file": file,
    }
    about = " · ".join(text for text in (harness.title.number, part.title, part.place or "") if text)
    told = "".join(f"<p>{html.escape(text)}</p>" for text in cautions.SURVEY)
    return _PAGE.format(
        policy=f"default-src 'none'; script-src {_hash(_SCRIPT)}; style-src {_hash(_STYLE)}; {_NOTHING}",
        title=html.escape(f"Survey of {plug}"),
        about=html.escape(about),
        style=_STYLE,
        cautions=told,
        fields="".join(_field(name) for name in TEMPLATE if name not in _BY_PROGRAM),
        data=_json(data),
        script=_SCRIPT,
    ).encode("utf-8", "replace")


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _json(data: object) -> str:
    """JSON that can't end its block, whatever stands in it."""
    text = json.dumps(data, ensure_ascii=True, sort_keys=True)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def _field(name: str) -> str:
    key = html.escape(name)
    if name in _CHOICES:
        label, choices = _CHOICES[name]
        options = "".join(
            f'<label><input type="radio" name="{key}" value="{value}"> {html.escape(shown)}</label>'
            for value, shown in choices
        )
        return f'<fieldset><legend>{html.escape(label)}</legend><div class="choices">{options}</div></fieldset>\n'
    label, sample, keys = _WORDS[name]
    hint = f' placeholder="{html.escape(sample)}"' if sample else ""
    place = f"f-{key.split(' [')[0].replace(' ', '-')}"
    return (
        f'<div class="field"><label for="{place}">{html.escape(label)}</label><input type="text" id="{place}" '
        f'name="{key}" inputmode="{keys}"{hint} autocomplete="off" autocapitalize="off" spellcheck="false"></div>\n'
    )


_PAGE: Final = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<header>
<h1>{title}</h1>
<p>{about}</p>
</header>
<main>
<div class="cautions">{cautions}</div>
<noscript><p>This form needs JavaScript; without it, use the survey sheet or its blank table.</p></noscript>
<p><label for="pick">Cavity</label><select id="pick"></select></p>
<h2 id="name"></h2>
<form id="form" autocomplete="off">
{fields}<p><button type="submit">Keep, and on to the next</button></p>
</form>
<p id="count"></p>
<p><button type="button" id="forget">Forget all</button></p>
<p id="said" role="status"></p>
</main>
<nav aria-label="Cavities and file">
<button type="button" id="back">Back</button>
<button type="button" id="next">Next</button>
<button type="button" id="save">Save file</button>
</nav>
<script type="application/json" id="data">{data}</script>
<script>{script}</script>
</body>
</html>
"""

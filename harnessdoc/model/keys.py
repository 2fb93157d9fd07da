"""Permanent keys and addresses of records: what a label's QR holds must outlive titles, order and revisions."""

from __future__ import annotations

import re

from harnessdoc.model.harness import Harness

KEY_LENGTH = 6
KEY_FORM = re.compile(r"[A-Z0-9]{3,12}")


def circuit_key(harness: Harness, circuit: str) -> str:
    """The circuit's permanent key: the one it states, else one derived from the harness's number and the circuit's id.

    It does not change with titles, order or anything else in the file. Six letters of base 32 (RFC 4648), upper case;
    two circuits that share a key are a finding of a check."""
    stated = harness.circuit(circuit).key
    if stated is not None:
        return stated
    import base64
    import hashlib

    mix = f"{harness.title.number}\n{circuit}".encode()
    return base64.b32encode(hashlib.sha256(mix).digest()).decode()[:KEY_LENGTH]


def record_path(key: str) -> str:
    """The record's page, relative to the record book's folder."""
    return f"{key}/index.html"


def record_address(harness: Harness, circuit: str) -> str | None:
    """What the QR holds: the base address, a slash, the key, a slash; None where the file states no base address."""
    base = harness.title.records
    return f"{base.rstrip('/')}/{circuit_key(harness, circuit)}/" if base else None


def record_line(harness: Harness, circuit: str) -> str:
    """The record in one line of text, for a QR where there is no address."""
    wires = harness.by_circuit.get(circuit, ())
    title = harness.circuit(circuit).title or circuit
    names = " ".join(wire.name for wire in wires)
    return f"{harness.title.number} {title}: {names}".strip()[:120]

"""What is written as one scalar reads back as the very same text."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from harnessdoc.intake.yaml_text import flow, scalar

LETTERS = st.characters(exclude_categories=["Cs"])


@given(st.text(LETTERS, max_size=30), st.text(LETTERS, max_size=30))
def test_any_text_reads_back(key: str, value: str) -> None:
    root = yaml.compose(flow({key: [value, {value: key}]}), Loader=yaml.CSafeLoader)
    assert root is not None
    (name, parts), *_ = root.value
    assert name.value == key
    assert parts.value[0].value == value
    assert [(k.value, v.value) for k, v in parts.value[1].value] == [(value, key)]


@pytest.mark.parametrize("text", ["X4:3", "2.5 mm2", "red/white", "Zündung", "100 %"])
def test_plain_where_it_may_be(text: str) -> None:
    assert scalar(text) == text


@pytest.mark.parametrize("text", ["", "a: b", "a #b", "null", "+12V", "a,b", "x ", "*a", "&a", "a:"])
def test_quoted_where_it_must_be(text: str) -> None:
    assert scalar(text) == f'"{text}"'

"""Sections are worked out once for all tests of this room: they are checked elsewhere."""

from __future__ import annotations

import pytest

from loadpath.case import profiles

_known: dict = {}
_section = profiles.section


def _remembered(shape, nu):
    key = (profiles._key(shape), nu)
    if key not in _known:
        _known[key] = _section(shape, nu)
    return _known[key]


@pytest.fixture(autouse=True)
def _remember_sections(monkeypatch):
    monkeypatch.setattr(profiles, "section", _remembered)

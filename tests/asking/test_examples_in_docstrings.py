"""The examples in the docstrings of every room of the calculators give what they say."""

import doctest
import importlib
from pathlib import Path

import pytest

import calculators

ROOT = Path(calculators.__file__).parent
SHOWING = sorted(path for path in ROOT.rglob("*.py") if ">>> " in path.read_text("utf-8"))


@pytest.mark.parametrize("path", SHOWING, ids=lambda path: str(path.relative_to(ROOT)))
def test_examples_in_docstrings(path: Path) -> None:
    name = ".".join(path.relative_to(ROOT.parent).with_suffix("").parts)
    found = doctest.testmod(importlib.import_module(name))
    assert found.attempted
    assert found.failed == 0

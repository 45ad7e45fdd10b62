"""Each file of tests begins with a Python that has read no book yet."""

from __future__ import annotations

import pytest

from tests.fresh import fresh


@pytest.fixture(scope="module", autouse=True)
def _as_just_opened() -> None:
    fresh()

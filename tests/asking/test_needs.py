"""The tests of the trade need what the trade needs, and no generator of pages and no browser."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WITHOUT = """
import sys
for name in ("mkdocs", "material", "markdown", "pymdownx", "brotli", "remotezip", "watchfiles", "playwright"):
    sys.modules[name] = None  # as if it were not installed
import pytest
sys.exit(pytest.main(["-q", "-p", "no:cacheprovider", *sys.argv[1:]]))
"""


ONE = next(path for path in sorted((ROOT / "tests/models").rglob("test_*.py")) if path.stat().st_size < 10_000)
TRADE = [f"tests/{room}" for room in ("models", "published", "sheets", "rules", "daybook")]


@pytest.mark.parametrize("words", [[str(ONE)], ["--collect-only", *TRADE]], ids=["run", "collect"])
def test_tests_of_the_trade_need_no_generator_of_pages(words: list[str]):
    ran = subprocess.run([sys.executable, "-c", WITHOUT, *words], cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout[-2000:]

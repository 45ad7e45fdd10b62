"""The tests of the trade need what the trade needs, and no generator of pages and no browser."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import grimp

ROOT = Path(__file__).parents[2]
NOT_NEEDED = ("mkdocs", "material", "markdown", "pymdownx", "brotli", "remotezip", "watchfiles", "playwright")
WITHOUT = f"""
import sys
for name in {NOT_NEEDED}:
    sys.modules[name] = None  # as if it were not installed
import pytest
sys.exit(pytest.main(["-q", "-p", "no:cacheprovider", *sys.argv[1:]]))
"""


ONE = next(path for path in sorted((ROOT / "tests/models").rglob("test_*.py")) if path.stat().st_size < 10_000)
ROOMS = ("models", "published", "sheets", "rules", "daybook")


def test_one_of_them_runs_where_nothing_of_that_is_installed():
    ran = subprocess.run([sys.executable, "-c", WITHOUT, str(ONE)], cwd=ROOT, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stdout[-2000:]


def test_none_of_them_imports_it_by_any_way():
    """Read from the imports of all modules, which takes a hundredth of the time of importing them."""
    ours = ("tests", "calculators", "site_src", "bench")
    graph = grimp.build_graph(*ours, include_external_packages=True, cache_dir=None)
    every = {name for name in graph.modules if name.split(".")[:2] in [["tests", room] for room in ROOMS]}
    assert all(sum(name.startswith(f"tests.{room}.") for name in every) > 5 for room in ROOMS)
    found = set().union(*(graph.find_downstream_modules(one) for one in NOT_NEEDED if one in graph.modules)) & every
    assert found == {"tests.rules.moved"}, "that one draws all pages, and is run by itself"

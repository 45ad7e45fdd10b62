"""The printed book of a house: its name on the cover, its pages at the end."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from calculators.house import here
from site_src.book import book_html, pages_of_house


def test_the_cover_has_the_name_of_the_house_as_text(house_of: Callable[[str], Any], monkeypatch: Any):
    house_of('[house]\nname = "A & B <i>malt</i>"\ncover = "The book of the steep house"\n')
    cover = book_html([], [], {}, "1 May 2026")
    assert '>A &amp; B &lt;i&gt;malt&lt;/i&gt;</p><p class="book-house">The book of the steep house</p>' in cover
    assert cover.index("Steep to Kiln</h1>") < cover.index("A &amp; B") < cover.index("Version")
    monkeypatch.setattr(here, "HOUSE", {})
    assert "for people who malt barley</p><p>Version" in book_html([], [], {}, "1 May 2026")


def test_its_pages_stand_at_the_end_the_plan_first_the_papers_last(tmp_path: Path):
    for name in ("", "papers", "card-steep-1", "our-screen", "safety-plan", "acknowledge"):
        (tmp_path / "house" / name).mkdir(parents=True, exist_ok=True)
        (tmp_path / "house" / name / "index.html").write_text("", "utf-8")
    order = [page for _, page in pages_of_house(tmp_path)]
    assert order == [
        "house", "house/safety-plan", "house/card-steep-1", "house/our-screen", "house/papers", "house/acknowledge",
    ]  # fmt: skip
    assert pages_of_house(tmp_path / "none") == []

"""Writes the files of the day-book that lie beside the site: ``python -m bench.day_book_files``."""

from __future__ import annotations

from pathlib import Path

from bench.demo_batches import demo_text
from bench.demo_running import running_text
from calculators.daybook.lines.schema import FILE_NAME, schema_text

ASSETS = Path(__file__).parents[1] / "docs" / "assets"
DEMO_NAME = "demo-batches.json"
RUNNING_NAME = "demo-running.json"


def main() -> None:
    """Write the schema, the invented year and the batches at work."""
    (ASSETS / FILE_NAME).write_text(schema_text(), encoding="utf-8")
    (ASSETS / DEMO_NAME).write_text(demo_text(), encoding="utf-8")
    (ASSETS / RUNNING_NAME).write_text(running_text(), encoding="utf-8")


if __name__ == "__main__":
    main()

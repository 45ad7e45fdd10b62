"""Writes the files of the day-book that lie beside the site: ``python -m bench.day_book_files``."""

from __future__ import annotations

from pathlib import Path

from calculators.records.schema import FILE_NAME, schema_text

ASSETS = Path(__file__).parents[1] / "docs" / "assets"


def main() -> None:
    """Write the schema."""
    (ASSETS / FILE_NAME).write_text(schema_text(), encoding="utf-8")


if __name__ == "__main__":
    main()

"""The heat of one grain in every sheet that reckons with it: ``python -m bench.one_grain``."""

from __future__ import annotations

from calculators.plates.heat import BEFORE, one_grain, one_grain_table, one_steep_table

__all__ = ["BEFORE", "one_grain"]


def main() -> None:
    """Print what each sheet gave before the one law, and gives now."""
    for table in (one_grain_table(), one_steep_table()):
        for row in (table.headings, *table.rows):
            print("\t".join(row))


if __name__ == "__main__":
    main()

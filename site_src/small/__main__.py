"""``python -m site_src.small prove``: compare the small engine with both Pythons, and write what was proven."""

from __future__ import annotations

import argparse
import sys


def main() -> int:
    """Run; return the exit code."""
    parser = argparse.ArgumentParser(prog="python -m site_src.small")
    parser.add_argument("verb", choices=["prove"])
    parser.add_argument("sheets", nargs="*", help="those that are not proven as they stand, when none is named")
    parser.add_argument("--share", type=float, default=1.0, help="part of the inputs; less than 1 is not recorded")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--workers", type=int, default=2)
    words = parser.parse_args()
    from tests.small.proof import prove  # the inputs are those of the tests

    return 1 if prove(words.sheets, words.share, words.seed, words.workers) else 0


if __name__ == "__main__":
    sys.exit(main())

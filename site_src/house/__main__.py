"""Takes the house's file up: ``python -m site_src.house``, before any limit is read for the build."""

from __future__ import annotations

import sys

from site_src.house import file, take_up
from site_src.settings import BuildError


def main() -> int:
    """Take the house's file up; return the exit code."""
    try:
        if take_up():
            print(f"Taken up: {file().name}")
    except BuildError as fault:
        print(f"The build stopped. {fault}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())

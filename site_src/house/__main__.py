"""``python -m site_src.house FOLDER``: takes the house's file up into a folder, before any limit is read."""

from __future__ import annotations

import sys
from pathlib import Path

from site_src.house import file, take_up
from site_src.settings import BuildError


def main() -> int:
    """Take the house's file up; return the exit code."""
    try:
        if take_up(None, Path(sys.argv[1])):
            print(f"Taken up: {file().name}")
    except BuildError as fault:
        print(f"The build stopped. {fault}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())

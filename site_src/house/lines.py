"""Where in a house's file something stands: the TOML reader of the standard library gives no lines."""

from __future__ import annotations

import re
from typing import NamedTuple

from site_src.settings import BuildError

_HEADING = re.compile(r"\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(#.*)?$")
_KEY = re.compile(r"\s*([A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')\s*(?:\.[^=]*)?=")
_OVER_LINES = re.compile(r'"""|\'\'\'')


class _Found(NamedTuple):
    heading: str
    nth: int
    key: str
    line: int


class Lines:
    """The headings and keys of a file with their lines.

    Parameters
    ----------
    name : str
        What the file is called in a message.
    text : str
        All of it.
    """

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        self.found: list[_Found] = []
        counts: dict[str, int] = {}
        heading, nth, inside = "", 0, False
        for number, line in enumerate(text.splitlines(), 1):
            quotes = len(_OVER_LINES.findall(line))
            if inside:
                inside = quotes % 2 == 0
                continue
            inside = quotes % 2 == 1
            if opened := _HEADING.match(line):
                heading = ".".join(part.strip().strip("\"'") for part in opened[2].split("."))
                nth = counts[heading] = counts.get(heading, -1) + 1
                self.found.append(_Found(heading, nth, "", number))
            elif held := _KEY.match(line):
                self.found.append(_Found(heading, nth, held[1].strip("\"'"), number))

    def line(self, heading: str, key: str = "", nth: int = 0) -> int:
        """The line of a key under the heading, of the heading itself without a key, or 0."""
        for one in self.found:
            if (one.heading, one.nth, one.key) == (heading, nth, key):
                return one.line
        if key:
            return self.line(heading, "", nth)
        return next((one.line for one in self.found if heading in (one.key, one.heading.split(".")[0])), 0)

    def fault(self, text: str, heading: str, key: str = "", nth: int = 0) -> BuildError:
        """A fault with its line, as far as it is known."""
        number = self.line(heading, key, nth)
        return BuildError(f"{self.name}, line {number}: {text}" if number else f"{self.name}: {text}")

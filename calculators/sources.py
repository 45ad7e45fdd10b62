"""Every source once: what it is, and whether it was read."""

from __future__ import annotations

from typing import Literal, NamedTuple

Standing = Literal["read", "abstract", "second-hand", "not read"]


class Source(NamedTuple):
    """A published work; ``standing`` says whether it was read here."""

    cited: str
    standing: Standing
    note: str = ""


_WORDS: dict[Standing, str] = {
    "read": "read",
    "abstract": "abstract read",
    "second-hand": "second-hand: read in a work that quotes it",
    "not read": "not read",
}


def standing_words(source: Source) -> str:
    """How the standing is said to a reader."""
    return _WORDS[source.standing] + (f"; {source.note}" if source.note else "")


SOURCES: dict[str, Source] = {
    "magb-malt-facts": Source(
        "Maltsters’ Association of Great Britain: malt facts "
        "(1 t of barley at 12 % gives about 830 kg of malt at 5 %)",
        "read",
    ),
    "irri-drying": Source(
        "International Rice Research Institute, Rice Knowledge Bank: weight of grain after drying",
        "read",
    ),
    "ure-leaching": Source(
        "Ure, A.: Dictionary of Arts, Manufactures and Mines, on malt (1.4 % leached in the steep)",
        "read",
    ),
}

"""Sources on weights, moistures and steeping."""

from __future__ import annotations

from .kind import Source

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

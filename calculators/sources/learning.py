"""Sources on how people learn and keep a skill."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "latimier-2021": Source(
        "Latimier, Peyre, Ramus 2021, Educational Psychology Review 33, 959: review of 29 studies; recall spread out "
        "against massed g = 0.74, growing against equal gaps g = 0.034, not significant",
        "abstract",
        address="https://link.springer.com/10.1007/s10648-020-09572-8",
    ),
    "kang-2014": Source(
        "Kang, Lindsey, Mozer, Pashler 2014, Psychonomic Bulletin & Review: words of another language over four weeks; "
        "growing and equal gaps alike eight weeks later, more recalled meanwhile with growing gaps",
        "abstract",
        address="https://doi.org/10.3758/s13423-014-0636-z",
    ),
}

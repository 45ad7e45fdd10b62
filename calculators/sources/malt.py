"""Sources on malt and its analysis."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "mebak-friability": Source(
        "MEBAK R-200.14.011 (2016): friability of malt (a roller presses the corns against a turning sieve drum; "
        "crop year, "
        "variety and winter barley shift it)",
        "read",
        "the published summary",
        "https://www.mebak.org/en/methode/r-200-14-011/friability-of-malt-friabilimeter-value/2648",
    ),
    "ebc-malt": Source(
        "European Brewery Convention, Analytica-EBC, section 4, malt: the list of its methods, each with its summary "
        "(moisture 4.2: not by the oven method for barley)",
        "read",
        "the summaries",
        "https://brewup.eu/ebc-analytica",
    ),
    "malt-qa-descriptions": Source(
        "Montana State University, malt quality laboratory: descriptions of the analyses, with what raises and "
        "lowers each",
        "read",
        "protein and friability",
        "https://www.montana.edu/barleybreeding/learning-center/maltster-resources/qa-descriptions.html",
    ),
    "ebc-dumas": Source(
        "EBC Analysis Committee: total nitrogen in barley and malt by combustion (Dumas), collaborative trial: "
        "r95 0.063, R95 0.116 % of dry matter, 1.23 to 1.86 % N",
        "not citable",
        "the abstract was read in a list of abstracts; journal and year were not noted",
    ),
    "ebc-nir-1996": Source(
        "Angelino, S. A. G. F., and EBC Analysis Committee: moisture and nitrogen of barley and malt by near infrared "
        "spectroscopy, MBAA Technical Quarterly 33 (1996) 170: malt moisture r95 0.2, R95 1.3; nitrogen 0.1 and 0.2",
        "abstract",
        address="http://tq.mbaa.com/Abstracts/1996/tq96ab46.htm",
    ),
    "ebc-soluble": Source(
        "EBC and IoB Analysis Committees: total soluble nitrogen of malt by combustion, collaborative trial: "
        "r95 0.047, R95 0.136 % of dry matter by EBC wort",
        "not citable",
        "the abstract was read in a list of abstracts; journal and year were not noted",
    ),
}

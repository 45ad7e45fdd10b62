"""Questions about a laboratory's analysis of a malt: the day-book and the sheet ask the same."""

from __future__ import annotations

from ...asking.declare import Choice, Option, Text
from ...models.bounds import Bounds
from .shared import number

EXTRACT, NITROGEN = Bounds(50.0, 95.0), Bounds(0.8, 3.5)
"""What a laboratory finds of a malt's extract and of its nitrogen, % of dry matter; over that it is another measure."""

_SHEET = Bounds(0.0, 100.0)
friability_percent = number("friability_percent", "Friability", "%", _SHEET, "As on the sheet.", example="86")
homogeneity_percent = number(
    "homogeneity_percent", "Homogeneity", "%", _SHEET, "Or modified evenly, whichever the sheet calls it."
)
extract_percent = number(
    "extract_percent",
    "Extract",
    "%",
    EXTRACT,
    "Fine grind. Say below which basis the sheet has.",
    example="81.5",
    reason="Litre degrees a kilogram (about 300) are another measure: ask the laboratory for per cent.",
)
extract_basis = Choice(
    "extract_basis",
    "Extract is given",
    (Option("dry", "On dry matter"), Option("as-is", "As is, with the malt’s water in it")),
    "“dry”, “db”, “dm” on the sheet, or “as is”, “wfr”, “ar”. If it does not say, ask.",
    default="dry",
)
nitrogen_percent = number(
    "nitrogen_percent",
    "Total nitrogen",
    "%",
    NITROGEN,
    "On dry matter. Protein divided by 6.25.",
    example="1.58",
    reason="Protein is 6.25 times as much: divide it by 6.25.",
)
soluble_ratio_percent = number(
    "soluble_ratio_percent", "Soluble of total nitrogen", "%", Bounds(15.0, 70.0), "SNR, or Kolbach index."
)
colour_ebc = number("colour_ebc", "Colour", "EBC", Bounds(0.5, 2000.0), "EBC units. °L or SRM: about half; ask.")
laboratory = Text("laboratory", "Laboratory, sheet number", 60, "Who analysed it, and by which methods.", optional=True)

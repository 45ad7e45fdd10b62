"""Published water uptake of eight lots of barley kept under water: a parent and its mutant at two sites in two years.

Molina-Cano et al. 1995, J. Inst. Brew. 101(2):79-83; data published with the CRAN
package pbANOVA (barleyh20, read): 50 g lots, weight in % of the start, means of two
repeats (standard deviation of a repeat 0.10 g); first genotype, and a mutant of it.  The data state neither
steeping temperature nor starting moisture; 15 C and 12 % are assumed here.
"""

from collections.abc import Mapping

HOURS = (5.0, 10.0, 15.0, 20.0, 30.0, 35.0)
WEIGHT_PERCENT = {
    "S91": (116.58, 123.33, 128.55, 133.11, 140.77, 143.51),
    "S92": (127.66, 135.97, 142.01, 146.20, 152.74, 154.80),
    "D91": (121.59, 130.41, 136.79, 142.31, 149.58, 151.71),
    "D92": (124.58, 133.28, 138.46, 142.99, 148.28, 150.63),
}
MUTANT_WEIGHT_PERCENT = {
    "S91": (116.61, 123.51, 128.40, 133.48, 140.90, 143.41),
    "S92": (127.88, 136.73, 143.31, 147.43, 154.69, 156.42),
    "D91": (121.68, 130.55, 137.09, 142.90, 149.74, 152.19),
    "D92": (123.42, 131.63, 137.42, 141.49, 147.24, 149.38),
}
SITE_YEARS = tuple(WEIGHT_PERCENT)
START_MOISTURE = 12.0
WATER_TEMP_C = 15.0


def _moistures(weights: Mapping[str, tuple[float, ...]]) -> dict[str, tuple[float, ...]]:
    return {
        lot: tuple(100.0 - (100.0 - START_MOISTURE) * 100.0 / w for w in percent) for lot, percent in weights.items()
    }


MOISTURE = _moistures(WEIGHT_PERCENT)
"""Moisture of each lot of the first genotype at each hour, % of wet weight, by the balance of dry matter."""

EIGHT_LOTS = {**MOISTURE, **{f"{lot} mutant": found for lot, found in _moistures(MUTANT_WEIGHT_PERCENT).items()}}
"""The same with the four lots of the mutant."""

"""Published water uptake of four lots of barley kept under water.

Molina-Cano et al. 1995, J. Inst. Brew. 101(2):79-83; data published with the CRAN
package pbANOVA (barleyh20, read): 50 g lots, weight in % of the start, means of two
repeats (standard deviation of a repeat 0.10 g), first genotype.  The data state neither
steeping temperature nor starting moisture; 15 C and 12 % are assumed here.
"""

HOURS = (5.0, 10.0, 15.0, 20.0, 30.0, 35.0)
WEIGHT_PERCENT = {
    "S91": (116.58, 123.33, 128.55, 133.11, 140.77, 143.51),
    "S92": (127.66, 135.97, 142.01, 146.20, 152.74, 154.80),
    "D91": (121.59, 130.41, 136.79, 142.31, 149.58, 151.71),
    "D92": (124.58, 133.28, 138.46, 142.99, 148.28, 150.63),
}
START_MOISTURE = 12.0
WATER_TEMP_C = 15.0
MOISTURE = {
    lot: tuple(100.0 - (100.0 - START_MOISTURE) * 100.0 / w for w in weights) for lot, weights in WEIGHT_PERCENT.items()
}
"""Moisture of each lot at each hour, % of wet weight, by the balance of dry matter."""

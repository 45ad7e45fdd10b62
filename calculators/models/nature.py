"""Constants of nature that formulas of several rooms go by: each stands here once."""

ZERO_C = 273.15
"""0 C [K]."""

GAS_CONSTANT = 8.314462618
"""Molar gas constant [J/mol K], exact since 2019."""

KJ_KWH = 3600.0
"""Kilojoules in a kilowatt-hour [kJ/kWh]."""

FRESH_OXYGEN_PERCENT = 20.9
"""Oxygen in fresh air, what a meter of it is set to there [% by volume] (common practice)."""

OUTDOOR_PPM = 420.0
"""Carbon dioxide in outdoor air, about [ppm]; it rises by some 2.5 ppm a year (from memory)."""

"""The trade's formulas as plain functions: floats in, floats out, one subject a file.

Nothing here knows of sheets, pages or numpy.  A function checks its own
limits and raises :class:`calculators.models.limits.OutOfRange`.
"""

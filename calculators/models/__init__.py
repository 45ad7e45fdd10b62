"""The trade's formulas as plain functions: floats in, floats out, one subject a file.

Nothing here knows of sheets or pages, and only ``living.ensemble``, ``living.draws``,
``living.shells`` and ``living.arrays`` know numpy.  A function checks its own
limits and raises :class:`calculators.models.bounds.OutOfRange`.
"""

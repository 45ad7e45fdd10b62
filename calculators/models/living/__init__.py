"""One living batch: water, breath, warmth, chit and growth of a batch from its first wetting to the kiln.

Each law stands in a file of its own and is written once, for one batch in floats and for
some hundreds of possible batches in arrays (``maths``).  ``batch`` steps them together,
``ensemble`` carries what is not known and takes the readings in; it alone needs numpy.
"""

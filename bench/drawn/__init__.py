"""The plates of the book that are drawn by Python: one pen, one light, one lettering for all of them.

``python -m bench.drawn`` writes them again into ``docs/_includes/drawings``. They are made from descriptions and from
measures of the trade; nothing is traced.
"""

"""How many corns a count may ask for; who only names it need not import the sums."""

MOST_CORNS = 20_000
"""No more is worth counting by hand; beyond it the answer is that a count does not decide."""

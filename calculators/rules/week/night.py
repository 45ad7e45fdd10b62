"""How many work together at night: apart from the house, so that a sheet that says so needs nothing of the week."""

AT_NIGHT_TWO = 2
"""A cast or a load at night is planned only where so many are there: nobody does it alone (common practice)."""

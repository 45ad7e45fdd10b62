"""One small change at a time in the formulas and rules of the trade: which do the tests see?"""

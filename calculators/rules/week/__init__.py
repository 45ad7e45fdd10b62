"""The week of a house: batches through steeps, floors, drums and kilns, planned by the hour.

Numbers in, plans as data out. ``house`` says what a house, a batch and a plan are; ``hours`` counts in sets of hours;
``ways`` finds the ways of one batch through what is free; ``search`` puts batches together; ``reasons`` says what is
scarce and what would make more possible; ``draws`` plays a plan through many weeks (it imports numpy).
"""

"""The record of a quick way's pairs with the oven."""

from __future__ import annotations

from .kinds import Blank, Column, Grid, Lines, Paper

PAIRS = Paper(
    "moisture-pairs",
    "Moisture pairs",
    ("quick-moisture",),
    (
        Lines("The way", (Blank("Balance, microwave or counted"), Blank("Program, power, grams"), Blank("House"))),
        Grid(
            "Pairs of one mixed sample",
            (
                Column("Date, batch"),
                Column("Quick %", ("quick",)),
                Column("Oven %", ("oven",)),
                Column("Oven higher by", ("apart",)),
                Column("Name"),
            ),
            16,
            takes=("each",),
        ),
        Lines(
            "Today",
            (
                Blank("Batch, place, time"),
                Blank(takes="reading"),
                Blank(takes="correction"),
                Blank(takes="moisture"),
                Blank(takes="verdict"),
                Blank("Decided, by"),
                Blank(takes="oven_now"),
                Blank("Oven’s answer came on"),
            ),
        ),
    ),
    "The oven stands over the quick way. A pair is never left out because it does not please.",
)

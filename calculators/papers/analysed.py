"""The records of what is analysed: a quick way’s pairs with the oven, and a malt’s sheet from the laboratory."""

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

ANALYSIS = Paper(
    "malt-analysis",
    "Malt analysis",
    ("analysis-sheet",),
    (
        Lines(
            "The sheet",
            (
                Blank("Batch"),
                Blank("Laboratory, sheet number"),
                Blank("Methods: EBC, IoB, ASBC, MEBAK"),
                Blank("Sample taken by, from, on"),
                Blank("Customer, order"),
                Blank(takes="malt_moisture"),
            ),
        ),
        Grid(
            "What stands on it",
            (
                Column("Figure"),
                Column("On the sheet"),
                Column("Dry or as is"),
                Column("Ordered"),
                Column("Our last ones"),
            ),
            (
                "Friability %",
                "Homogeneity %",
                "Extract %",
                "Extract on dry matter %",
                "Fine less coarse, points",
                "Moisture %",
                "Total nitrogen %",
                "Soluble of total %",
                "Colour EBC",
                "β-glucan, viscosity",
            ),
        ),
        Lines(
            "Read",
            (
                Blank(takes="extract_dry"),
                Blank(takes="nitrogen"),
                Blank(takes="verdict"),
                Blank("What is odd, and who was asked"),
                Blank("Written to the batch on, by"),
            ),
        ),
    ),
    "Extract, dry = 100 × extract as is ÷ (100 − moisture). Two batches prove nothing about a way of working.",
)

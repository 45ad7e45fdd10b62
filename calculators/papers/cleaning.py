"""The record of what was cleaned between two batches, and of what went down the drain."""

from __future__ import annotations

from .kinds import Blank, Column, Grid, Lines, Paper

CLEANING = Paper(
    "cleaning-record",
    "Between batches",
    ("steep-effluent",),
    (
        Lines("What", (Blank("After batch"), Blank("Before batch"), Blank("Date"), Blank("Shift lead"))),
        Grid(
            "Cleaned, all of it from outside",
            (
                Column("What"),
                Column("Done at"),
                Column("Found"),
                Column("Product, strength, min"),
                Column("Rinsed"),
                Column("Waits for a permit"),
                Column("Name"),
            ),
            (
                "Floor, corners, cracks",
                "Steep: wall, overflow, screen",
                "Steep: jets that are weak",
                "Steep: suction duct",
                "Drum, nozzles, sump",
                "Box, from the walkway",
                "Tools, hose",
                "Thermometers",
                "Drains, pits",
                "Second look",
            ),
        ),
        Lines(
            "Down the drain",
            (
                Blank(takes="water_m3"),
                Blank(takes="cod_kg"),
                Blank(takes="share_m3"),
                Blank(takes="verdict"),
                Blank("Tank, or where to"),
                Blank("Let go from, to; by whose word"),
                Blank("Corns from the screen (kg)"),
                Blank("Spilt, told"),
            ),
        ),
    ),
    "One cleaner, never two. No line of this sheet is a permit, and none lets water go: the consent does.",
)

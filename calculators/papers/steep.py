"""The record of a steep, from the filling to the cast."""

from __future__ import annotations

from .kinds import Blank, Column, Grid, Lines, Paper

STEEP = Paper(
    "steep-record",
    "Steep record",
    ("moisture-target", "steep-timing", "sample-basket", "cast-decision"),
    (
        Lines("Batch", (Blank("Batch"), Blank("Vessel"), Blank("Lot, bin"), Blank("Date"))),
        Lines(
            "Before filling",
            (
                Blank(takes="barley_kg"),
                Blank(takes="barley_moisture"),
                Blank(takes="target_moisture"),
                Blank(takes="target_kg"),
                Blank(takes="water_temp_c"),
                Blank(takes="basket_g"),
                Blank(takes="sample_g"),
                Blank(takes="gross_at_target_g"),
            ),
        ),
        Lines(
            "Filling",
            (
                Blank("First corn wet"),
                Blank("Filling ended"),
                Blank("Water over the grain (cm)"),
                Blank("Skimmings, drained (kg)"),
            ),
        ),
        Grid(
            "Stages",
            (
                Column("Stage", ("stage",)),
                Column("Planned from", ("begins",)),
                Column("to", ("ends",)),
                Column("Planned %", ("drained",)),
                Column("Began"),
                Column("Ended"),
                Column("Water °C"),
                Column("Air or suction"),
                Column("Name"),
            ),
            8,
            takes=("stages",),
        ),
        Grid(
            "Readings",
            (
                Column("Time"),
                Column("Grain °C, three depths"),
                Column("Basket g"),
                Column("Moisture %"),
                Column("Chit of 200"),
                Column("Smell"),
                Column("Name"),
            ),
            4,
        ),
        Lines(
            "Basket now",
            (
                Blank(takes="gross_now_g"),
                Blank(takes="drained"),
                Blank(takes="moisture_now"),
                Blank(takes="points_to_go"),
            ),
        ),
        Lines(
            "At the last drain",
            (
                Blank(takes="moisture_drained"),
                Blank(takes="chitted"),
                Blank(takes="counted"),
                Blank(takes="grain_temp_c"),
                Blank(takes="smell"),
                Blank(takes="verdict"),
                Blank("Cast to, at", takes="cast_to"),
                Blank("Effluent (m³), to"),
            ),
        ),
    ),
    "Anything that was dropped stays where it is. Write down what and where, and tell the shift lead.",
    vessels=("steep",),
)

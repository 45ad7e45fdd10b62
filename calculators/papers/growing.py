"""The records of a floor and of a drum, from the cast to the kiln."""

from __future__ import annotations

from .kinds import Blank, Column, Grid, Lines, Paper

_SPRINKLING = Lines(
    "Sprinkling",
    (
        Blank(takes="moisture_now"),
        Blank(takes="moisture_wanted"),
        Blank(takes="water_l"),
        Blank("Given at, by"),
    ),
)
_READY = (
    Blank(takes="days_done"),
    Blank(takes="days_to_ready"),
    Blank(takes="test_at"),
    Blank("Counted, of how many"),
)

FLOOR = Paper(
    "floor-record",
    "Floor record",
    ("floor-round", "sprinkling", "days-to-ready"),
    (
        Lines("Batch", (Blank("Batch"), Blank("Floor"), Blank("Cast on"), Blank(takes="difference_limit_c"))),
        Lines(
            "This round",
            (
                Blank(takes="read_at"),
                Blank(takes="day"),
                Blank(takes="hours_since_turning"),
                Blank(takes="depth_cm"),
                Blank(takes="bottom_c"),
                Blank(takes="top_c"),
                Blank(takes="room_c"),
                Blank(takes="difference_k"),
                Blank(takes="action"),
                Blank(takes="look_again_h"),
                Blank(takes="limit_at"),
                Blank("Done at, by"),
            ),
        ),
        Grid(
            "Rounds",
            (
                Column("Day, time"),
                Column("Hours ago", ("hours_ago",)),
                Column("Since turning h", ("since",)),
                Column("Depth cm", ("depth",)),
                Column("Bottom °C", ("bottom",)),
                Column("Top °C", ("top",)),
                Column("Room °C", ("room",)),
                Column("Roots, leaf"),
                Column("Smell"),
                Column("Done"),
                Column("Name"),
            ),
            14,
            takes=("earlier_rounds",),
        ),
        _SPRINKLING,
        Lines("Towards ready", _READY),
    ),
    "Read the room’s gas alarm from the door. If it sounds, stay out. Gas lies low: nobody kneels or sits.",
    vessels=("floor",),
)

DRUM = Paper(
    "drum-record",
    "Drum record",
    ("sprinkling", "days-to-ready"),
    (
        Lines(
            "Batch",
            (
                Blank("Batch"),
                Blank("Drum"),
                Blank("Cast on"),
                Blank("Shut at, all people counted by"),
                Blank(takes="barley_kg"),
                Blank(takes="barley_moisture"),
            ),
        ),
        Grid(
            "Rounds",
            (
                Column("Day, time"),
                Column("Air on °C, %"),
                Column("Air off °C, %"),
                Column("Bed °C, three probes"),
                Column("Flow, % fresh"),
                Column("Turned"),
                Column("Moisture %"),
                Column("Roots, leaf"),
                Column("Smell"),
                Column("Name"),
            ),
            12,
        ),
        Grid(
            "Temperatures by day",
            (Column("Day", ("day",)), Column("Bed °C, mean", ("temp",)), Column("Note")),
            6,
            takes=("temperatures",),
        ),
        _SPRINKLING,
        Lines("Towards ready", _READY),
    ),
    "Samples come from the port, with the drum stopped, isolated, locked, blocked and tried. No head, no arm, no "
    "person goes in.",
    vessels=("drum", "box"),
)

BOX = Paper(
    "box-record",
    "Box record",
    ("sprinkling", "days-to-ready"),
    (
        Lines(
            "Batch",
            (
                Blank("Batch"),
                Blank("Box"),
                Blank("Cast on"),
                Blank("People counted outside by"),
                Blank(takes="barley_kg"),
                Blank(takes="barley_moisture"),
                Blank("Depth (m), five places"),
                Blank("Pressure with the box empty (Pa)"),
            ),
        ),
        Grid(
            "Rounds",
            (
                Column("Day, time"),
                Column("Air on °C, %"),
                Column("Air off °C"),
                Column("Bed °C, bottom to top"),
                Column("Gauge Pa, flow"),
                Column("Turned"),
                Column("Moisture %"),
                Column("Roots, leaf"),
                Column("Smell"),
                Column("Name"),
            ),
            12,
        ),
        Grid(
            "Temperatures by day",
            (Column("Day", ("day",)), Column("Bed °C, mean", ("temp",)), Column("Note")),
            6,
            takes=("temperatures",),
        ),
        _SPRINKLING,
        Lines("Towards ready", _READY),
    ),
    "Samples from the walkway, with the turner parked, isolated and locked. Nobody steps on the bed or under the "
    "floor.",
)

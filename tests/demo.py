"""A sheet with every kind of question, for testing the machinery itself."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from calculators.asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Band,
    Chart,
    Choice,
    Clock,
    Dots,
    Either,
    Found,
    Heading,
    Line,
    Listing,
    Mark,
    Note,
    Number,
    Option,
    Outcome,
    Refusal,
    Rows,
    Shade,
    Sheet,
    Table,
    Text,
)
from calculators.models.bounds import OutOfRange


def work(**given: Any) -> Outcome | Refusal:
    """Give back enough of each kind of answer."""
    if given["temp_c"] == 13:
        raise AskAgain("temp_c", "13 C brings bad luck. Type another temperature.")
    if given["temp_c"] == 14:
        raise OutOfRange("temp_c", 15.0, 30.0, "Because.")
    if given["kind"] == "oats":
        return Refusal("Oats are not covered. See [[sheet:demo|the demo]].", (Note("warning", "Stop."),))
    kg = given["bed_kg"] if given["bed_kg"] is not None else given["barley_kg"] * 1.5
    hours = [row[0] for row in given["stages"]]
    begun = given["start"] or datetime(1, 1, 1)
    ends = [begun + timedelta(hours=sum(hours[: n + 1])) for n in range(len(hours))]
    xs = [0.0, 1.0, 2.0]
    chart = Chart(
        "course",
        "A <course> & more",
        "What happens.",
        Axis("Time", "h"),
        Axis("Moisture", "%", decimals=1),
        lines=(Line("first", xs, [10.0, 20.0, 25.0]), Line("second", xs, [9.0, 18.0, 22.0])),
        bands=(Band("doubt", xs, [9.0, 19.0, 24.0], [11.0, 21.0, 26.0]),),
        shades=(Shade("wet", 0.0, 1.0), Shade("rest", 1.0, 2.0)),
        marks=(Mark("target", 23.0),),
        dots=(Dots("reading", [1.5], [22.0]),),
    )
    return Outcome(
        (
            Found("kg", kg, f"{kg} kg", kg - 1, kg + 1),
            Found("verdict", "turn" if kg > 10 else "leave"),
            Found("ends", ends[-1]),
        ),
        (Rows("course", [[h, e, "wet"] for h, e in zip(hours, ends, strict=True)]),),
        (Note("remark", "Said [[sheet:demo]]."),),
        (chart,),
    )


temp_c = Number("temp_c", "Bed temperature", "C", -5.0, 30.0, "In the middle.", example="16")
SHEET = Sheet(
    id="demo",
    title="Demo",
    purpose="Every kind of question.",
    questions=(
        temp_c,
        Number("turns", "Turns", "", 1, 5, default="2", whole=True),
        Choice("kind", "Grain", (Option("barley", "Barley"), Option("oats", "Oats")), example="barley"),
        Clock("start", "Start", optional=True),
        Text("remark", "Remark", 20, optional=True),
        Number("bed_kg", "Bed weight", "kg", 1, 10000),
        Number("barley_kg", "Barley weight", "kg", 1, 10000, example="100"),
        Table(
            "stages",
            "Stages",
            (
                Number("hours", "Hours", "h", 0.5, 72),
                Number("water_temp_c", "Temperature", "C", 2, 30, optional=True),
            ),
            max_rows=4,
            example="8 14; 16 13",
            row_names=("immersion", "air rest"),
        ),
    ),
    answers=(
        Answer("kg", "Weight", "kg", 1, lead=True, rests_on="a guess", trust="little", next="Weigh."),
        Answer(
            "verdict",
            "What to do",
            kind="verdict",
            words=(Option("turn", "Turn it"), Option("leave", "Leave it")),
        ),
        Answer("ends", "Ends", kind="clock"),
    ),
    work=work,
    either=(Either((("barley_kg",), ("bed_kg",))),),
    listings=(
        Listing(
            "course",
            "Course",
            (
                Heading("hours", "Hours", "h", 1),
                Heading("end", "End", kind="clock"),
                Heading("what", "What", kind="text"),
            ),
        ),
    ),
)

RIGHT: dict[str, Any] = {"temp_c": "16", "kind": "barley", "barley_kg": "100", "stages": "8 14; 16 13"}

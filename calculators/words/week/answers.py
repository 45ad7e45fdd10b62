"""What the week of a house answers: its figures and its tables."""

from __future__ import annotations

from ...asking.declare import Answer, Heading, Listing, Option
from ...rules.limits.kiln_hand_over import READY_HOURS
from ...rules.limits.steeping import REST
from .. import within
from ..life import CHIT_DIP, CHIT_END, CHIT_RESTS_ON, CHIT_TRUST, WARMEST
from ..limits import at_edge
from .tables import BATCH_LABELS, PLACE_IDS

_PLANNED = "the plan of all batches through all places, by the aims in their order"
_DAYS = "growth by the living model from the bed’s temperature and your days"
_HOURS = within.between(0.0, 10_000.0, "No week is so long.", "batches")
_MANY = within.count(1000.0, "batches")
_KG = within.kilograms("batches", most=1_000_000.0)
_M3 = within.between(0.0, 100_000.0, "No house draws more in a day.", "water_m3_t")
_KWH = within.between(0.0, 10_000_000.0, "No kiln of any house takes more in a day.", "batches")
_M2 = within.between(0.0, 100_000.0, "No floor is larger.", "floors")
_SHIFT = within.between(-5_000.0, 5_000.0, "No week is so long.", "batches")

ANSWERS = (
    Answer(
        "plan",
        "Can it be done",
        kind="verdict",
        lead=True,
        words=(
            Option("kept", "Yes, as planned: no stop is passed, and every wish is kept."),
            Option("called", "Yes, as planned, with somebody called in at an hour when nobody is there."),
            Option("watched", "Yes, as planned, with hours that have to be watched: see the notice."),
            Option("late", "Not all in time. The notice says which two wishes stand against each other."),
            Option("stop", "Stop: by these numbers a steep or a bed passes a limit, named in the notice. Change it."),
            Option("none", "No: no plan keeps every stop. The notice says why, and what would make it possible."),
        ),
        rests_on=_PLANNED,
        trust="In hours, with every stage as long as its middle. The drawn weeks say how often that breaks.",
    ),
    Answer("next_at", "Next thing to do", kind="clock", lead=True, rests_on=_PLANNED, worked="rule"),
    Answer("last_off", "Last malt off the kiln", kind="clock", lead=True, rests_on=_PLANNED, worked="rule"),
    Answer("late_h", "Malt late, all batches", "h", 0, lead=True, rests_on=_PLANNED, within=_HOURS),
    Answer("called", "Somebody called in", "", 0, rests_on=_PLANNED, worked="rule", within=_MANY),
    Answer("watched_h", "Hours watched", "h", 0, rests_on=_PLANNED, worked="rule", within=_HOURS),
    Answer("changed", "Lines of the plan written anew", "", 0, rests_on=_PLANNED, worked="rule", within=_MANY),
    Answer(
        "scarcest_percent",
        "The fullest place is taken",
        "%",
        0,
        rests_on="all hours from now until the last kiln is emptied",
        next="What is full most of the time decides the week: look at it first.",
        worked="rule",
        within=within.part("batches"),
    ),
    Answer(
        "moisture_end",
        "Moisture at the last drain",
        "%",
        0,
        rests_on="the steep model, run for the stages in the water that is to be had",
        trust="Some seven points either way until a basket has been weighed.",
        next="Correct it on the way: [[sheet:steep-fit|steep fit]].",
        worked="model",
        within=within.moisture("stages"),
    ),
    CHIT_DIP._replace(within=within.part("stages")),
    CHIT_END._replace(within=within.part("stages")),
    WARMEST._replace(within=within.grain_temp("stages")),
    Answer(
        "chit_there_h",
        "Chits there for the cast, after the fill",
        "h",
        0,
        rests_on=CHIT_RESTS_ON,
        trust=CHIT_TRUST,
        next="The cast is planned for no sooner. It goes by the count: [[sheet:cast-decision]].",
        worked="model",
        within=within.steep_hours("stages"),
    ),
    Answer(
        "gives_way",
        "First to give way, in so many of 100 weeks",
        "%",
        0,
        rests_on=f"drawn weeks; {_DAYS}",
        trust="The doubt of growth is that of the model, or of your own days. No house has tested it.",
        worked="model",
        within=within.chance("batches"),
    ),
)

LISTINGS = (
    Listing(
        "batches",
        "Each batch",
        tuple(
            Heading(name, label, kind="clock")
            if name in ("fill", "drained", "cast", "ready_from", "ready_to", "load", "off")
            else Heading(name, label, "h", 0, within=_HOURS)
            if name == "slack"
            else Heading(name, label, kind="text")
            for name, label in BATCH_LABELS.items()
        ),
    ),
    Listing(
        "places",
        "Which batch is where, by the day",
        (Heading("day", "Day", kind="text"), *(Heading(name, name, kind="text") for name in PLACE_IDS)),
    ),
    Listing(
        "by_day",
        "What is done, day by day; at a steep with a second person in sight or call",
        (Heading("day", "Day", kind="text"), Heading("done", "What is done", kind="text")),
    ),
    Listing(
        "lines",
        "What is done, place by place",
        (
            Heading("where", "Where", kind="text"),
            Heading("at", "When", kind="clock"),
            Heading("what", "What", kind="text"),
            Heading("batch", "Batch", kind="text"),
            Heading("people", "Who do it", "", 0, within=_MANY),
            Heading("there", "There", "", 0, within=_MANY),
        ),
        on_card=False,
    ),
    Listing(
        "scarce",
        "How full each place is",
        (
            Heading("place", "Place", kind="text"),
            Heading("share", "Full, of its hours", "%", 0, within=within.part("batches")),
            Heading("day", "Fullest day", kind="text"),
            Heading("most", "Taken then", kind="text"),
        ),
        on_card=False,
    ),
    Listing(
        "more",
        "What one more would do, tried one at a time",
        (
            Heading("help", "With", kind="text"),
            Heading("found", "Comes to", kind="text"),
            Heading("watched", "Watched", "h", 0, within=_HOURS),
            Heading("called", "Called in", "", 0, within=_MANY),
            Heading("late", "Late", "h", 0, within=_HOURS),
        ),
        on_card=False,
    ),
    Listing(
        "plans",
        "Plans that put something else first",
        (
            Heading("first", "Puts first", kind="text"),
            Heading("watched", "Watched", "h", 0, within=_HOURS),
            Heading("called", "Called in", "", 0, within=_MANY),
            Heading("late", "Late", "h", 0, within=_HOURS),
            Heading("changed", "Changed lines", "", 0, within=_MANY),
            Heading("which", "Which are late", kind="text"),
        ),
        on_card=False,
    ),
    Listing(
        "other_lines",
        "The lines of the other plans",
        (
            Heading("first", "Puts first", kind="text"),
            Heading("batch", "Batch", kind="text"),
            Heading("fill", "Fill", kind="clock"),
            Heading("cast", "Cast", kind="clock"),
            Heading("bed", "Grows on", kind="text"),
            Heading("load", "Load", kind="clock"),
            Heading("off", "Off the kiln", kind="clock"),
        ),
        on_card=False,
    ),
    Listing(
        "drawn",
        "How often it gives way, of 100 weeks",
        (
            Heading("batch", "Batch", kind="text"),
            Heading("cast_by", "Cast by", kind="clock"),
            Heading("ready_from", "Ready from", kind="clock"),
            Heading("ready_to", "Ready by", kind="clock"),
            Heading(
                "waits",
                f"Waits over {at_edge(READY_HOURS, 'accept_high')}",
                "%",
                0,
                within=within.chance(),
            ),
            Heading("stops", f"Waits over {at_edge(READY_HOURS, 'stop_high')}", "%", 0, within=within.chance()),
            Heading("rests", f"Drained over {at_edge(REST, 'accept_high')}", "%", 0, within=within.chance()),
            Heading("late", "Late", "%", 0, within=within.chance()),
            Heading("called", "Called in, on the mean", "", 1, within=_MANY),
        ),
        on_card=False,
    ),
    Listing(
        "slip",
        "One batch late: the lines to change",
        (
            Heading("batch", "Batch", kind="text"),
            Heading("what", "What", kind="text"),
            Heading("where", "Where", kind="text"),
            Heading("was", "As planned", kind="clock"),
            Heading("now", "Then", kind="clock"),
            Heading("later", "Later by", "h", 0, within=_SHIFT),
        ),
        on_card=False,
    ),
    Listing(
        "water",
        "Water and heat by the day",
        (
            Heading("day", "Day", kind="text"),
            Heading("water", "Water", "m3", 1, within=_M3),
            Heading("warm", "Of it from the warm tank", "m3", 1, within=_M3),
            Heading("warming", "To warm it", "kWh", 0, within=_KWH),
            Heading("effluent", "Let go", "m3", 1, within=_M3),
            Heading("heat", "Asked of the kiln, at least", "kWh", 0, within=_KWH),
        ),
        on_card=False,
    ),
    Listing(
        "floor_room",
        "Room on the floors from a day on, at their thinnest depth",
        (
            Heading("floor", "Floor", kind="text"),
            Heading("day", "From", kind="text"),
            Heading("lies", "Lies there", "kg", 0, within=_KG),
            Heading("taken", "Taken", "m2", 0, within=_M2),
            Heading("left", "Left", "m2", 0, within=_M2),
            Heading("more", "Fits beside it", "kg", 0, within=_KG),
            Heading(
                "second",
                "One more batch from",
                "cm",
                1,
                within=within.between(0.0, 100_000.0, "No piece lies so deep.", "floors"),
            ),
        ),
        on_card=False,
    ),
    Listing(
        "floor_depth",
        "What a floor holds by depth",
        (
            Heading("floor", "Floor", kind="text"),
            Heading("depth", "Depth", "cm", 0, within=within.between(0.0, 100.0, "No piece lies deeper.", "floors")),
            Heading("kg", "Holds", "kg", 0, within=_KG),
            Heading("side_by_side", "Batches side by side", "", 0, within=_MANY),
            Heading("area", "One batch covers", "m2", 0, within=_M2),
        ),
        on_card=False,
    ),
)

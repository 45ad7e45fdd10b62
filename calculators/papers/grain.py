"""The records of a grain test and of the count before the kiln."""

from __future__ import annotations

from .kinds import Blank, Column, Grid, Lines, Paper

_DISH = (
    Column("Dish"),
    Column("24 h, new"),
    Column("48 h, new"),
    Column("72 h, new"),
    Column("Grown", ("grown",)),
    Column("Of", ("sown",)),
    Column("Mould"),
)

_FOUR = ("1", "2", "3", "4")

GRAIN_TEST = Paper(
    "grain-test",
    "Grain test",
    ("germination-test", "intake-check"),
    (
        Lines("Lot", (Blank("Lot"), Blank("Sample from"), Blank("Taken on, by"), Blank("Passport"))),
        Lines(
            "At intake",
            (
                Blank(takes="smell"),
                Blank(takes="insects"),
                Blank("Fumigated?", takes="fumigated"),
                Blank("With what, certificate", takes="fumigant"),
                Blank(takes="moisture"),
                Blank(takes="temperature_c"),
                Blank(takes="screenings_percent"),
                Blank(takes="nitrogen_percent"),
                Blank(takes="pre_germinated_percent"),
                Blank(takes="split_skinned_percent"),
                Blank(takes="ergot_g_kg"),
                Blank(takes="admixture_percent"),
            ),
        ),
        Lines("Dishes laid", (Blank("Hour 0"), Blank("Room (°C)"), Blank("Counted by"))),
        Grid("4 ml of water", _DISH, _FOUR, takes=("replicates",)),
        Grid("8 ml of water", _DISH, _FOUR, takes=("replicates_8ml",)),
        Grid(
            "Capacity",
            (Column("Dish"), Column("Alive", ("grown",)), Column("Of", ("sown",)), Column("How tested")),
            _FOUR,
            takes=("capacity_rows",),
        ),
        Lines(
            "Result",
            (
                Blank(takes="energy"),
                Blank(takes="capacity"),
                Blank(takes="water_sensitivity"),
                Blank(takes="germination_index"),
                Blank(takes="verdict"),
                Blank("Name"),
            ),
        ),
    ),
    "Corns that were counted are taken out. Reagents of the capacity test: gloves, goggles, the maker’s sheet.",
)

READINESS = Paper(
    "readiness-record",
    "Readiness record",
    ("readiness", "kiln-water"),
    (
        Lines("Batch", (Blank("Batch"), Blank("Floor, drum, box"), Blank("Day"), Blank("Time"))),
        Grid(
            "Corns by length of the acrospire",
            (
                Column("Leaf, of the corn’s length"),
                Column("Today", ("today",)),
                Column("Yesterday", ("yesterday",)),
                Column("Day before", ("day_before",)),
            ),
            takes=("counts",),
        ),
        Grid(
            "Corns by the rub",
            (Column("Inside"), Column("Corns", ("corns",)), Column("Where taken")),
            takes=("rub",),
        ),
        Lines(
            "Verdict",
            (
                Blank(takes="target_used"),
                Blank(takes="share_ready"),
                Blank(takes="overshot_limit"),
                Blank(takes="share_overshot"),
                Blank(takes="verdict"),
                Blank(takes="wait_hours"),
                Blank(takes="count_more"),
                Blank("Roots, smell"),
            ),
        ),
        Lines(
            "To the kiln",
            (
                Blank(takes="green_malt_kg"),
                Blank(takes="green_malt_moisture"),
                Blank(takes="malt_moisture"),
                Blank(takes="water_to_remove_kg"),
                Blank(takes="latent_heat_kwh"),
                Blank("Last water on"),
                Blank("Depth on the kiln (cm)"),
                Blank("Loading began, ended"),
            ),
        ),
        Lines(
            "Hand-over",
            (
                Blank("Handed over by"),
                Blank("Taken over by"),
                Blank("Malt dressed (kg, %)"),
                Blank("Rootlets (kg, %)"),
            ),
        ),
    ),
    "The kiln’s burner, gases and doors are the kiln crew’s: they say when it is loaded.",
)

STORE_ROUND = Paper(
    "store-round",
    "Store round",
    ("germination-test", "storage-time"),
    (
        Lines("Round", (Blank("Week of"), Blank("Outside °C, %"), Blank("By"), Blank("Shift lead"))),
        Grid(
            "Bins",
            (
                Column("Bin, lot"),
                Column("Warmest °C, where"),
                Column("Top %"),
                Column("1 m %"),
                Column("Sieve"),
                Column("Traps"),
                Column("Top, smell"),
                Column("Vermin"),
                Column("Fan h"),
                Column("Decided, told"),
            ),
            14,
        ),
        Lines(
            "Last count of energy",
            (
                Blank("Lot"),
                Blank(takes="energy"),
                Blank(takes="water_sensitivity"),
                Blank("Counted on"),
                Blank(takes="spent"),
                Blank(takes="days_left"),
            ),
        ),
    ),
    "From port, walkway and ground. Nobody goes into a bin or onto grain. Only licensed people fumigate.",
)

"""Which points of published guidance a job of shovelling, pushing or pulling exceeds."""

from __future__ import annotations

from ..asking.declare import Answer, Choice, Either, Found, Heading, Listing, Note, Number, Option, Outcome, Rows, Sheet
from ..asking.figures import fixed, plain_number
from ..models.lifting import shovelling as model
from ..models.lifting.shovelling import Point
from ..words import within
from ..words.handling import POINTS, person, who
from ..words.questions.shared import number

scoops_a_minute = number(
    "scoops_a_minute",
    "Scoops a minute",
    "per min",
    model.SCOOPS_A_MINUTE,
    "Count them over five minutes.",
    example="18",
)
shovel_load_kg = number(
    "shovel_load_kg",
    "Shovel with its load",
    "kg",
    model.SHOVEL_LOAD_KG,
    "Hang the full shovel on a scale. Wet grain may fill it heavier than dry, matted grain lighter.",
    example="6",
)
throw_m = number("throw_m", "Throw", "m", model.THROW_M, "How far the grain flies.", example="1.5")
minutes = number("minutes", "Minutes at a time", "min", model.MINUTES, "Without a rest or other work.", example="30")
throw_height_m = Number(
    "throw_height_m",
    "Height of the throw",
    "m",
    model.THROW_HEIGHT_M.low,
    model.THROW_HEIGHT_M.high,
    "Over the edge of a barrow or hopper, if you throw up.",
    optional=True,
)
force_start_kg = number(
    "force_start_kg",
    "Force to start it",
    "kg",
    model.FORCE_KG,
    "Read on a spring balance hooked to the handle.",
)
force_on_kg = number("force_on_kg", "Force to keep it moving", "kg", model.FORCE_KG, "The same, once it goes.")
push_m = number("push_m", "Distance without a stop", "m", model.PUSH_M, "One way.")
ground = Choice(
    "ground",
    "Floor and slope",
    (
        Option("good", "Hard, even, dry and level"),
        Option("bad", "Wet, soft, uneven, over grain, or a slope"),
    ),
    default="bad",
    in_view=True,
)
weather = Choice(
    "weather",
    "Hot or cold",
    (Option("mild", "Mild"), Option("extreme", "Very hot and damp, or very cold")),
    "A kiln, a summer floor or an open yard in frost counts as very.",
    default="mild",
)


def work(
    *,
    scoops_a_minute: float | None,
    shovel_load_kg: float | None,
    throw_m: float | None,
    minutes: float | None,
    force_start_kg: float | None,
    force_on_kg: float | None,
    push_m: float | None,
    throw_height_m: float | None,
    ground: str,
    weather: str,
    who: str,
    person: str,  # noqa: ARG001
) -> Outcome:
    """Set each figure beside its point of guidance; ``person`` refuses by itself."""
    found: list[Found] = []
    rows: list[list[str | float | None]] = []
    if scoops_a_minute is not None and shovel_load_kg is not None and throw_m is not None and minutes is not None:
        rows += [
            _row(model.PACE, scoops_a_minute),
            _row(model.SPELL, minutes),
            _row(model.WEIGHT, shovel_load_kg),
            _row(model.THROW, throw_m),
        ]
        if throw_height_m is not None:
            rows.append(_row(model.HEIGHT, throw_height_m))
        moved = scoops_a_minute * shovel_load_kg
        found.append(
            Found(
                "kg_a_minute",
                moved,
                f"{plain_number(scoops_a_minute)} × {plain_number(shovel_load_kg)} kg = {fixed(moved, 0)} "
                f"kg, the shovel each time with it",
            )
        )
    if force_start_kg is not None and force_on_kg is not None and push_m is not None:
        start = Point("start", model.PUSH_START[who], "kg")
        going = Point("going", model.PUSH_ON[who], "kg")
        rows += [
            _row(start, force_start_kg),
            _row(going, force_on_kg),
            _row(model.PUSH_FAR, push_m),
        ]
        rows.append(
            [
                "Floor and slope",
                "hard, even, level",
                *_ground_cells(ground == "bad"),
            ]
        )
    count = sum(1 for row in rows if row[3] == "exceeded")
    found.insert(0, Found("points_exceeded", float(count), f"of {len(rows)} points"))
    found.insert(0, Found("finding", "exceeded" if count else "none-exceeded"))
    return Outcome(tuple(found), (Rows("points", rows),), _notes(count, weather))


def _ground_cells(bad: bool) -> list[str]:
    if bad:
        return ["worse", "exceeded", "Sweep and dry it, lay boards, or take another way."]
    return ["so", "not exceeded", "–"]


def _row(point: Point, value: float) -> list[str | float | None]:
    over = model.exceeded(value, point.most)
    unit = f" {point.unit}" if point.unit else ""
    name, change = POINTS[point.id]
    return [
        name,
        f"{plain_number(point.most)}{unit}",
        f"{fixed(value, 1).rstrip('0').rstrip('.')}{unit}" if value < 1e4 else f"{value:.0f}",
        "exceeded" if over else "not exceeded",
        change if over else "–",
    ]


def _notes(count: int, weather: str) -> tuple[Note, ...]:
    notes: list[Note] = []
    if count:
        notes.append(
            Note(
                "warning",
                "This pace or load could overload a heart, or harm a back or a shoulder for long. Change what the "
                "table says before going on, and share the work.",
            )
        )
    else:
        notes.append(
            Note(
                "caution",
                "None of these points is exceeded. That is no assurance: people are hurt below them. Stop at pain, "
                "dizziness or tightness of the chest, and say so.",
            )
        )
    if weather == "extreme":
        spell = plain_number(model.SPELL.most)
        notes.append(
            Note(
                "warning",
                f"Heavy work in great heat or cold could bring a collapse. The guidance is {spell} minutes of work, "
                f"then {spell} minutes of rest, with water, and never alone.",
            )
        )
    notes.append(
        Note(
            "remark",
            "The pushing figures assume hands between knuckle and shoulder height. More on both: "
            "[[page:safety/manual-handling|manual handling]].",
        )
    )
    return tuple(notes)


_MOVED = within.between(
    0.0,
    400.0,
    "Nobody shovels so much (from memory).",
    "scoops_a_minute",
    instead="Count the scoops of one minute, and weigh one.",
)

SHEET = Sheet(
    id="shovel-pace",
    title="Shovelling, pushing, pulling",
    purpose="Which points of published guidance a job exceeds, and what to change.",
    questions=(
        person,
        scoops_a_minute,
        shovel_load_kg,
        throw_m,
        minutes,
        force_start_kg,
        force_on_kg,
        push_m,
        ground,
        throw_height_m,
        weather,
        who._replace(label="Who pushes or pulls"),
    ),
    either=(
        Either(
            (
                ("scoops_a_minute", "shovel_load_kg", "throw_m", "minutes"),
                ("force_start_kg", "force_on_kg", "push_m"),
            )
        ),
    ),
    answers=(
        Answer(
            "finding",
            "Against the guidance",
            kind="verdict",
            lead=True,
            words=(
                Option("exceeded", "At least one point is exceeded. Change that first."),
                Option("none-exceeded", "No point is exceeded. This is no assurance that nobody is hurt."),
            ),
            rests_on="each figure against its point; the figure itself is not yet exceeded",
            trust="Points of guidance, second-hand. They are no legal limits.",
        ),
        Answer(
            "points_exceeded",
            "Points exceeded",
            "",
            0,
            rests_on="the table below",
            worked="rule",
            within=within.count(20.0, "scoops_a_minute"),
        ),
        Answer(
            "kg_a_minute",
            "Moved a minute, with the shovel",
            "kg",
            0,
            rests_on="scoops × weight",
            trust="Half of it may be the shovel: a lighter one moves more grain for the same strain.",
            within=_MOVED,
        ),
    ),
    listings=(
        Listing(
            "points",
            "Point by point",
            (
                Heading("point", "Point", kind="text"),
                Heading("most", "At most", kind="text"),
                Heading("yours", "Yours", kind="text"),
                Heading("exceeded", "Exceeded?", kind="text"),
                Heading("change", "What to change", kind="text"),
            ),
        ),
    ),
    work=work,
    guarded=True,
    sources=("ccohs-shovelling", "hse-indg143"),
    story="Stripping the floor of the example maltings with shovels: invented numbers.",
)

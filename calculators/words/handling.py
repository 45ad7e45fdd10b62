"""What the sheets on lifting and shovelling ask before any sum: whom no figure fits, and what work none covers."""

from __future__ import annotations

from ..asking.declare import Choice, Note, Option, Refusal
from ..asking.figures import plain_number
from ..models.lifting.shovelling import HEIGHT, PACE, PUSH_FAR, SPELL, THROW, WEIGHT

POINTS = {
    PACE.id: ("Scoops a minute, going on", "Slow down, or take turns."),
    SPELL.id: ("Minutes at a time", f"Stop after {plain_number(SPELL.most)} minutes. Do other work or rest."),
    WEIGHT.id: ("Shovel with its load", "Smaller scoop, lighter shovel, fewer scoops a minute."),
    THROW.id: ("Throw", "Walk the barrow nearer. Do not throw further than one long step."),
    HEIGHT.id: ("Height of the throw", "Use a lower barrow or a conveyor."),
    "start": ("Force to start it", "Less load, bigger wheels, a tug."),
    "going": ("Force to keep it moving", "Mend the floor and the wheel."),
    PUSH_FAR.id: ("Distance without a stop", "Rest on the way, or move it by power."),
}
"""What each point of guidance is called, and what to change where it is exceeded."""

who = Choice(
    "who",
    "Who lifts, for the British filter",
    (Option("woman", "A woman, or anyone: the lower weights"), Option("man", "A man: the higher weights")),
    default="woman",
)

NOT_FOR_THEM = Refusal(
    "These figures are for grown people in good health. They fit nobody who is pregnant or a new mother, under 18, "
    "hurt or ill, so this sheet gives none. That person does not lift, shovel or push by a sum: an assessment of their "
    "own comes first, and other work until then. What was answered here stays between the two who spoke of it.",
    (
        Note(
            "warning",
            "Work that others bear could harm that person, or a child, for life. Ask occupational health or the site’s "
            "competent person before the job: [[page:safety/manual-handling|lifting and shovelling]].",
        ),
    ),
)

person = Choice(
    "person",
    "Is any of these so, for anyone who would do it: pregnant or a new mother, under 18, hurt or ill?",
    (
        Option("none", "No. Each was asked in private"),
        Option("yes", "Yes, or somebody would rather not say", NOT_FOR_THEM),
    ),
    "Ask in private, before the job. Hurt or ill: back, heart, hernia, or not long back from an illness.",
    example="none",
    private=True,
)

_SEE = (
    "Use [[sheet:shovel-pace|the sheet on shovelling and pushing]] and "
    "[[page:safety/manual-handling|manual handling]] instead"
)


def _not_covered(word: str, label: str, why: str) -> Option:
    """A kind of task that the equation does not cover: chosen, it is refused, whatever else is blank."""
    return Option(word, label, Refusal(why))


LIFTING_TASKS = (
    Option("plain", "Plain lift: two hands, dry floor, 19 to 26 °C"),
    _not_covered("shovel", "Shovelling", f"The lifting equation does not cover shovels. {_SEE}."),
    _not_covered(
        "barrow",
        "Barrow, plough, pushing or pulling",
        f"The lifting equation does not cover barrows, ploughs, pushing or pulling. {_SEE}.",
    ),
    _not_covered(
        "one-hand",
        "One hand",
        "The lifting equation does not cover lifting with one hand. Take two hands or a smaller load: "
        "[[page:safety/manual-handling#with-one-hand|with one hand]].",
    ),
    _not_covered(
        "part-filled-sack",
        "Part-filled sack, or liquid that moves",
        "The lifting equation does not cover a load whose weight moves, such as a part-filled sack. "
        f"{_SEE}. Fill sacks full and small, or use a box with handles.",
    ),
    _not_covered(
        "wet-floor",
        "Wet or slippery floor",
        "The lifting equation does not cover a floor where shoes slip (friction under 0.4). Dry and sweep "
        f"it, or leave the load. {_SEE}.",
    ),
    _not_covered(
        "hot-or-cold",
        "Hot, cold or damp place: floor, steep, kiln",
        "The lifting equation is for rooms at 19 to 26 °C and 35 to 50 % humidity. Germinating floors, "
        f"steeps and kilns are outside that. {_SEE}.",
    ),
    _not_covered(
        "cramped",
        "Cramped, sitting or kneeling",
        f"The lifting equation does not cover sitting, kneeling or cramped places. {_SEE}.",
    ),
    _not_covered(
        "carry",
        "Carried further than two steps",
        "The lifting equation covers one or two steps, no carrying. What to do instead: "
        "[[page:safety/manual-handling#carry|carrying]].",
    ),
    _not_covered(
        "fast",
        "Snatched or thrown",
        f"The lifting equation does not cover loads that are snatched or thrown. {_SEE}.",
    ),
)

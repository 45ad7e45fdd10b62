"""The jobs from the gate to the cast. How often and when again are common practice; a house may ask for more."""

from __future__ import annotations

from .declare import Job, Step

INTAKE = Job(
    id="take-in-a-load", title="Take in a load",
    page="procedures/intake-and-storage", session="session-02-intake",
    shown="papers, eight spears, probe, smell, sieve, moisture, the verdict",
    helped="spears, sieves and weighs; reads the intake check",
    alone="takes one load from the passport to the verdict",
    often="three loads, of different farms",
    sooner="or a season without a load",
    steps=(
        Step("papers-to-verdict", "Takes one load from the passport to the verdict, papers first.", 3, later=True),
        Step("spear", "Spears a sack so that the wet layer shows."),
        Step("deciding-line", "Says which line of the sheet decided, and what would change it.", 3),
        Step("fumigant", "Says what is done with a load when nobody knows what was done to it.", hazard=True),
        Step("grey-powder", "Says what grey powder or a smell of garlic means: stop, leave, upwind, call.",
             hazard=True),
        Step("lorries", "Says where nobody stands while a lorry reverses or tips, and what running grain does to "
             "somebody who steps on it.", hazard=True),
    ),
)  # fmt: skip

GERMINATION = Job(
    id="test-the-germination", title="Test the germination",
    page="procedures/germination-test", session="session-03-counting",
    shown="sowing, counting and taking out, both waters, the verdict with its interval",
    helped="sows four dishes and counts the first day",
    alone="runs one whole test and says whether it decides",
    often="two lots, eight dishes each",
    steps=(
        Step("sowing", "Sows 100 corns as they come, not as they choose.", 2),
        Step("against-the-trainer", "Gets an energy within the spread of four dishes of the trainer’s on the same lot.",
             2, later=True),
        Step("four-dishes", "Says why four dishes at once beat one."),
        Step("undecided", "Reads “undecided” as “sow more”, not as “probably good”."),
        Step("peroxide", "Says what to do first with peroxide in the eye.", hazard=True),
    ),
)  # fmt: skip

FILLING = Job(
    id="fill-the-steep", title="Fill the steep",
    page="procedures/filling-the-steep", session="session-04-filling",
    shown="looking in from the platform, water, barley, rousing, skimming, hour 0",
    helped="skims, weighs the skimmings, reads the dip stick",
    alone="fills one charge by the page and writes the whole record",
    often="three charges",
    steps=(
        Step("record", "Writes charge, skimmings and hour 0 with no blank, and hangs the basket in the grain.", 3,
             later=True),
        Step("reads-units", "Reads the dip stick and the thermometer and writes the unit.", 3),
        Step("half-a-point", "Says what a barley moisture 0.5 points wrong does to every later reading."),
        Step("rim", "Keeps head and arms outside the rim, also when the trainer looks away.", 3, hazard=True),
        Step("falls-in", "Says what to do when something falls in, and shows what to do when someone does: "
             "[[page:safety/emergency#in-a-full-steep|in a full steep]].", hazard=True),
    ),
)  # fmt: skip

STEEPING = Job(
    id="steep-by-the-basket", title="Steep by the basket",
    page="procedures/steeping", session="session-05-steeping",
    shown="drain, suction, basket, chit count, moving the plan by the basket",
    helped="weighs the basket drained, and moves a drain",
    alone="runs one wet and one rest by the plan and hands over to the next shift",
    often="two batches, one in another season",
    sooner="and before the first summer",
    steps=(
        Step("moves-a-drain", "Moves a drain by the basket and says why.", 2),
        Step("wet-and-rest", "Runs one wet and one rest by the plan, and hands over to the next shift.", 2, later=True),
        Step("rest-stop", "Says at what grain temperature in a rest to stop and ask, and which chit a couch and a drum "
             "want, without the page."),
        Step("count-open", "Knows that 180 of 200 leaves 85 to 93 % open."),
        Step("fan-outlet", "Says where the fan blows out, who is kept away, and that nobody looks into the channel.",
             hazard=True),
    ),
)  # fmt: skip

MOISTURE = Job(
    id="measure-moisture", title="Measure moisture",
    page="procedures/measuring-moisture", session="session-06-moisture",
    shown="tare wet, drain [[limit:draining-time accept_high]], oven, desiccator",
    helped="weighs basket and dishes",
    alone="measures a wet sample both ways and explains the difference",
    often="three weighings, one oven run",
    steps=(
        Step("second-weighing", "Gets a basket that lies no further than [[limit:basket-weighings accept_high]] from a "
             "second weighing, and waits for it to drain without being told.", 3),
        Step("against-the-oven", "Gets basket and oven of one hour no further apart than "
             "[[limit:basket-against-oven accept_high]].", later=True),
        Step("by-hand", "Gets the moisture of a basket within 0.3 points, by hand."),
        Step("slips", "Names three slips and which way they push the reading."),
        Step("hot-dish", "Carries a hot dish with dry gloves, sets it where it belongs, and says what to do when the "
             "basket’s chain does not reach.", hazard=True),
    ),
)  # fmt: skip

CASTING = Job(
    id="cast", title="Cast",
    page="procedures/casting", session="session-07-casting",
    shown="valve deck and floor agree; spread, sample, couch",
    helped="spreads and levels, reads two thermometers",
    alone="casts one batch to floor or drum with the crew",
    often="two batches to each place that the house has",
    steps=(
        Step("four-findings", "Puts four findings side by side before the valve is opened.", 2, later=True),
        Step("one-depth", "Lays one depth all over, within 2 cm, and measures it.", 2),
        Step("weight", "Says how heavy the batch is after the steep, and what bears it."),
        Step("couch", "Says when the couch is broken, by the hand and by the thermometer."),
        Step("below-the-outlet", "Keeps everybody from below the outlet and from the drum at all times, and says what "
             "to do when grain will not run.", 2, hazard=True),
    ),
)  # fmt: skip

STORE = Job(
    id="store-and-dry", title="Store and dry",
    page="procedures/intake-and-storage", session="",
    shown="drier swept, lit and watched; grain measured where it leaves; cables, traps, night air",
    helped="sets the air by the intake check; reads the cables",
    alone="dries one lot to its moisture and cools it the same day; reads a bin for a month",
    often="one lot dried, one bin for a month",
    sooner="before the harvest",
    steps=(
        Step("grain-heat", "Dries one lot with the grain never hotter than the page allows where it leaves the drier."),
        Step("cooled", "Cools it the same day, and writes moisture and warmth before and after."),
        Step("warmest-spot", "Finds the warmest spot of a bin and says since when."),
        Step("swallows", "Says what running grain does to somebody on it, and what to do at a blocked outlet.",
             hazard=True),
        Step("drier-fire", "Says what to do at a smell of fire in a drier, and where dust can go off.", hazard=True),
    ),
)  # fmt: skip

STORE_ROUND = Job(
    id="do-the-round-of-the-store", title="Do the round of the store",
    page="procedures/store-through-the-year", session="session-02-intake",
    shown="smell, cables, two spears, sieve, traps, top, ground, the decision",
    helped="does one bin by the eight steps, with last week’s sheet",
    alone="does all bins of one week and says what has changed",
    often="four rounds, one of them in another season",
    sooner="and before the first warm week of spring",
    steps=(
        Step("eight-steps", "Does one bin by the eight steps, from port, walkway and ground, and writes each.", 3),
        Step("changed", "Says what has changed since last week, also where nothing is over an edge.", 3, later=True),
        Step("spent-once", "Says by hand what of a lot’s time is left after some days at another moisture."),
        Step("keeps-apart", "Keeps a lot with insects apart: slides shut and tagged, no shared spear.", later=True),
        Step("licensed-only", "Says who fumigates, who airs and who tests, and where everybody else stays.",
             hazard=True),
        Step("crust", "Says why nobody steps on grain, on a crust least of all, and what grey powder or a smell of "
             "garlic means.", hazard=True),
    ),
)  # fmt: skip

QUICK = Job(
    id="read-moisture-the-quick-way", title="Read moisture the quick way",
    page="procedures/quick-moisture", session="session-06-moisture",
    shown="sample, blotting, the house’s way, pairs, range, who is right when the oven answers",
    helped="reads one half of a mixed sample beside the trainer",
    alone="reads a sample, corrects it with its range, and makes the pair of the week",
    often="five readings on two batches, one pair with its oven",
    sooner="and after a new lamp, program or dish",
    steps=(
        Step("two-readings", "Gets two readings of one sample no further apart than [[limit:quick-two accept_high]].",
             3),
        Step("both-ends", "Holds both ends of the range against the decision, and says what is done when they "
             "disagree.", 2),
        Step("a-pair", "Makes a pair: one sample, mixed, halved, both halves begun within a quarter of an hour.",
             later=True),
        Step("oven-stands", "Says which figure stands when the oven disagrees, and what is written."),
        Step("too-few", "Says why no corrected figure is given under [[limit:quick-pairs stop_low]]."),
        Step("stays-beside", "Stays beside the microwave oven, and says what to do at smoke.", hazard=True),
    ),
)  # fmt: skip

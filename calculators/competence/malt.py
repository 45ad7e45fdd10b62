"""The jobs from the floor to the empty vessel, and those of every day. How often and when again are common practice."""

from __future__ import annotations

from .declare import Job, Step

FLOOR = Job(
    id="keep-the-floor", title="Keep the floor",
    page="procedures/floor-germination", session="session-08-floor",
    shown="the round, turning, ploughing, sprinkling",
    helped="does three rounds and turns a part",
    alone="does one day’s rounds and decides by the bottom",
    often="one whole day on two batches",
    sooner="or a summer away",
    steps=(
        Step("day-of-rounds", "Does one day’s rounds, and decides by the bottom.", 2, later=True),
        Step("warmest-place", "Finds the warmest place without being told where.", 2),
        Step("when-again", "Says when to come again, and why then."),
        Step("turned-even", "Turns so that bottom and top are alike within 0.5 K.", 2),
        Step("alarm", "Stops at the door when the alarm is dark, and says what a silent alarm tells: nothing about low "
             "places.", hazard=True),
    ),
)  # fmt: skip

DRUM = Job(
    id="keep-the-drum", title="Keep the drum",
    page="procedures/drum-germination", session="session-09-drum",
    shown="air on and off, fan, humidity, turning, the port",
    helped="reads one round, draws a sample with own lock on",
    alone="does one day’s rounds from outside",
    often="one whole day on two batches",
    months=12, sooner="with the lock-out",
    steps=(
        Step("day-of-rounds", "Does one day’s rounds from outside, reads the rise and says what it asks for.", 2,
             later=True),
        Step("lock-out", "Isolates, locks, blocks and tries, in that order, without prompting, each time before a hand "
             "passes a guard.", 2, hazard=True),
        Step("energies", "Says which energies can move this drum."),
        Step("sample", "Draws a sample with their own lock on.", 2),
        Step("gas-stays", "Says why a locked drive makes nothing of the gas.", hazard=True),
    ),
)  # fmt: skip

BOX = Job(
    id="keep-the-box", title="Keep the box",
    page="procedures/box-germination", session="session-16-box",
    shown="loading, air, gauge and flow, turning by the panel, a sample from the walkway",
    helped="reads one round; counts the people before a turning",
    alone="does one day’s rounds from the walkway and the panel",
    often="one whole day on two batches",
    months=12, sooner="with the lock-out",
    steps=(
        Step("day-of-rounds", "Does one day’s rounds from the walkway and the panel, and says what each asks for.", 2,
             later=True),
        Step("lock-out", "Isolates, locks and tries the turner, in that order, without prompting.", 2, hazard=True),
        Step("counts-people", "Counts the people before a turning.", 2, hazard=True),
        Step("gauge-and-flow", "Reads gauge and flow together, and says what 1.4 times and 0.5 times mean.", 2),
        Step("nobody-on-the-bed", "Says why nobody steps on the bed, also with the turner locked.", hazard=True),
    ),
)  # fmt: skip

READINESS = Job(
    id="judge-readiness", title="Judge readiness",
    page="procedures/readiness", session="session-10-readiness",
    shown="the W, 100 corns, five heaps, the rub, the smell",
    helped="counts beside the trainer; the two counts are compared",
    alone="counts, rubs and smells, and says kiln, wait or count more",
    often="three pieces, one of them late or uneven",
    steps=(
        Step("share", "Gets a share ready that differs from another’s of the same sample by less than ten points, or "
             "finds out why.", 3),
        Step("verdict", "Says kiln, wait, count more or late, and to whom.", 3, later=True),
        Step("leaves-open", "Says what a count of 100 leaves open, and why the sheet may send it all the same."),
        Step("smells-outside", "Smells a handful, outside, and never at the port of a drum.", hazard=True),
        Step("fever", "Says what fever in the evening after mouldy grain may be, and whom to tell.", hazard=True),
    ),
)  # fmt: skip

KILN = Job(
    id="hand-over-at-the-kiln", title="Hand over at the kiln",
    page="procedures/kiln-hand-over", session="session-11-kiln-door",
    shown="ring, load, level, weigh, write, sign",
    helped="loads a part and fills in the record",
    alone="hands one batch over with no blank in the record",
    often="two batches",
    steps=(
        Step("no-blank", "Hands one batch over with no blank in the record.", 2, later=True),
        Step("water", "Works out the water within 20 kg, by hand."),
        Step("never-known", "Says what is never known again if not written now."),
        Step("the-word", "Waits for the word to load, says it back, and says who gives it.", 2),
        Step("where-nobody-goes", "Says where nobody goes, hot or cold, without a permit.", hazard=True),
    ),
)  # fmt: skip

ANALYSIS = Job(
    id="read-an-analysis-sheet", title="Read an analysis sheet",
    page="learning/reading-an-analysis-sheet", session="session-17-analysis-sheet",
    shown="batch, methods, basis, what was ordered, the line in the day-book",
    helped="finds them on one sheet; puts one extract on dry matter",
    alone="reads one new sheet and writes it to its batch",
    often="two sheets, of different laboratories or customers",
    steps=(
        Step("on-the-sheet", "Finds batch, methods and basis on a new sheet within two minutes.", 2),
        Step("dry-matter", "Puts an extract on dry matter, by hand."),
        Step("to-its-batch", "Writes a sheet to a batch that has left.", 2),
        Step("two-malts", "Says why two malts prove nothing."),
        Step("mouldy-sample", "Says why nobody stirs or sniffs a mouldy sample, and whom to tell of a fever in the "
             "evening.", hazard=True),
    ),
)  # fmt: skip

CLEANING = Job(
    id="clean-between-batches", title="Clean between batches",
    page="procedures/between-batches", session="session-12-between-batches",
    shown="sweep, wash, one cleaner, rinse twice, second look",
    helped="cleans a floor; measures one cleaner by the sheet",
    alone="cleans floor and tools, and the drum from outside",
    often="two floors, one drum from outside",
    steps=(
        Step("one-cleaner", "Cleans with one cleaner, measured by its sheet, and rinses twice.", 2),
        Step("ten-corns", "Finds all ten corns that were hidden."),
        Step("second-look", "Leaves nothing for the second pair of eyes.", 2),
        Step("never-meet", "Says what hypochlorite must never meet.", hazard=True),
        Step("gas-stays", "Names three places where gas stays after the grain has gone.", hazard=True),
    ),
)  # fmt: skip

STEEP_CLEANING = Job(
    id="clean-the-steep-from-outside", title="Clean the steep from outside",
    page="procedures/between-batches", session="session-12-between-batches",
    shown="lock, wall, overflow, screen, jets, suction duct; the consent and the drain’s load",
    helped="washes one steep with lance or built-in head; counts the jets",
    alone="cleans one steep from the platform, and says what waits for a permit",
    often="two steeps",
    sooner="and after any change of the consent",
    steps=(
        Step("from-the-rim", "Washes wall, overflow and screen from behind the rail, until each runs clear.", 2),
        Step("jets", "Counts the jets that bubble alike, and says from which share on nobody fills the steep.", 2),
        Step("what-waits", "Tells the shift lead what the lance did not reach, and for whom it waits.", 2),
        Step("drain", "Says where this water goes, how much, when and how fast, and who holds the consent."),
        Step("nobody-in", "Says why nobody goes into or leans into a washed, drained steep, jets or no jets.",
             hazard=True),
        Step("suction-mouth", "Says what a suction fan and an open drain can pull in, and what is locked before.",
             hazard=True),
    ),
)  # fmt: skip

SHIFT = Job(
    id="hand-over-at-the-change-of-shift", title="Hand over at the change of shift",
    page="procedures/hand-over", session="session-14-hand-over",
    shown="danger first, batch by batch, the look, said back, signed",
    helped="tells one batch in order; says one back",
    alone="hands a shift over and takes one over",
    often="two shifts handed over, two taken over, one of them at night",
    steps=(
        Step("in-order", "Tells in order, danger first, without the page.", 2),
        Step("says-back", "Says back what they were told, and the teller mends no more than one thing.", 2),
        Step("looks", "Looks at each batch from outside and reads one thing of each before taking over.", 2,
             later=True),
        Step("otherwise", "Says what they do when it is otherwise than told."),
        Step("nobody-looks-in", "Says where nobody looks in for a hand-over, and that a fan which stands is told, not "
             "visited.", hazard=True),
    ),
)  # fmt: skip

LIFTING = Job(
    id="lift-shovel-carry", title="Lift, shovel, carry",
    page="safety/manual-handling", session="session-13-lifting",
    shown="the lift that is taken away; hoist and truck; pace of the shovel",
    helped="measures one real lift and asks the sheet",
    alone="turns a part of a piece at the pace, with changes",
    often="one lift measured, one turning",
    sooner="and after any complaint of the back",
    steps=(
        Step("taken-away", "Says one change that takes the lift away altogether, before any sum."),
        Step("smallest-zone", "Finds the smallest zone that the hands pass through."),
        Step("pace", "Keeps fifteen scoops a minute, counted, and the changes, to the end of the turning."),
        Step("isolation", "Does the six steps of isolation in order.", hazard=True),
        Step("when-to-stop", "Says when to stop, what wet floors do, and that asking is private.", hazard=True),
    ),
)  # fmt: skip

EMERGENCY = Job(
    id="answer-an-emergency", title="Answer an emergency",
    page="safety/emergency", session="session-01-first-day",
    shown="the card, the numbers, the isolators, the meeting place",
    helped="speaks the call aloud; walks to the isolators",
    alone="takes the caller’s part in a drill, from stop to the gate",
    often="one drill",
    months=12, sooner="after any change of plant, and after any near miss",
    steps=(
        Step("from-outside-only", "Says without the page: stop, shout, call, shut off, from outside only.",
             hazard=True),
        Step("drill", "Takes the caller’s part from stop to gate, in the order of the card.", later=True, hazard=True),
        Step("unread-gas", "Says which gas the site’s alarm does not read.", hazard=True),
        Step("where-gas-lies", "Points at three places where gas lies that do not look like vessels.", hazard=True),
        Step("nobody-follows", "Says in own words why nobody follows a colleague in, not even “just for a second”.",
             hazard=True),
    ),
)  # fmt: skip

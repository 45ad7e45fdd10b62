"""Entries that cannot be right, each named with what to look at. Nothing is refused for it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from itertools import pairwise
from typing import NamedTuple

from ...asking.declare import Values
from ...asking.figures import fixed, plain_number
from ...models.bed.floor import DEPTH_CM
from ...models.steep.fit import ODD_SD, READING_SD
from ...models.weights.losses import share_of_dry_matter
from ...rules.conventions import BASKET_OVEN_APART, WATER_OFF_K
from ...rules.floor import cooler_unexplained
from ...rules.kiln_door import LOST
from ...rules.limits.floor_germination import MOISTURE
from ...rules.limits.kiln_hand_over import WEIGHT
from ...rules.limits.quick_moisture import AGAINST_OVEN
from ...rules.lines import passed
from ...words.cast import cast_stop
from ...words.limits import act_of, said, stop_said, told
from ...words.steep_readings import FALL_POINTS
from ..lines.entry import Entry
from ..lines.kinds import FILLED, FLOOR, MALT, QUICK, WET, WITHDRAWN
from ..pages.view import kind_label, said_time
from .batch import Batch
from .bed_samples import Sample, samples_of, unsure
from .blanks import blank_lines, over_counted, said_of, tare_lacks, unreadable_start
from .course import Course
from .lives import chit_line

CLOCK_BACK = timedelta(minutes=2)
AHEAD = timedelta(minutes=15)
START_OFF_SD = 2.0
CHITS_SHORT = "It is cast already: corns that have not chitted stay behind. Count them by the day."


class Doubtful(NamedTuple):
    """Something that cannot be right: the entry it is about (blank for the batch), and what to do."""

    entry: str
    text: str


def _named(entry: Entry) -> str:
    return f"{kind_label(entry)}, {said_time(entry.local)}"


def doubtful(batch: Batch, course: Course | str) -> list[Doubtful]:
    """All that cannot be right in a batch, in the order of the checks: clock, order, stages, readings, bed, weights."""
    found = [*_clock(batch), *_order(batch), *_stages(batch), *_baskets(batch)]
    if isinstance(course, Course):
        found += _readings(course)
    found += [*_cast(batch), *_chitted(batch)]
    found += [*_oven(batch), *_quick(batch), *_water(batch), *_bed(batch), *_samples(batch), *_weights(batch)]
    return [*found, *_malt(batch)]


def _clock(batch: Batch) -> Iterator[Doubtful]:
    for before, after in pairwise(batch.entries):
        first, second = before.written_utc, after.written_utc
        if first and second and second < first - CLOCK_BACK:
            back = (first - second).total_seconds() / 60
            yield Doubtful(
                after.id,
                f"{_named(after)}: the device’s clock went back {_minutes(back)} since the line before "
                f"({_named(before)}), or the line came from another device by a file. Lines stand in the order in "
                "which they came into this book. If the clock was wrong, correct the times.",
            )
    for entry in batch.standing:
        written = entry.written_utc
        if written and entry.utc > written + AHEAD:
            yield Doubtful(
                entry.id,
                f"{_named(entry)} lies {_minutes((entry.utc - written).total_seconds() / 60)} after the moment it was "
                "written. Correct the time.",
            )


def _minutes(minutes: float) -> str:
    return f"{fixed(minutes, 0)} minutes" if minutes < 120 else f"{fixed(minutes / 60, 1)} hours"


def _order(batch: Batch) -> Iterator[Doubtful]:
    known = {entry.id for entry in batch.entries}
    for entry in batch.entries:
        if entry.replaces and entry.replaces not in known:
            what = "strikes out" if entry.kind == WITHDRAWN else "corrects"
            yield Doubtful(entry.id, f"{_named(entry)} {what} a line that is not in this book.")
    seen: dict[tuple[str, str, str], Entry] = {}
    for entry in batch.standing:
        same = (entry.kind, entry.at, repr(sorted(entry.values.items(), key=lambda pair: pair[0])))
        if same in seen and entry.kind not in ("remark", "gas", "answer"):
            yield Doubtful(
                entry.id, f"{_named(entry)} stands twice with the same values. Strike one out if it was one."
            )
        seen[same] = entry
    starts = batch.of("start")
    if len(starts) > 1:
        yield Doubtful(
            starts[-1].id,
            f"The batch was begun {len(starts)} times; the last one counts. Correct the first line instead of writing "
            "another.",
        )
    if batch.left:
        for entry in batch.standing:
            if entry.utc > batch.left.utc and entry.kind not in ("remark", "answer", "gas", "moisture", MALT):
                yield Doubtful(entry.id, f"{_named(entry)} comes after the batch went to the kiln.")
        if batch.cast and batch.left.utc < batch.cast.utc:
            yield Doubtful(batch.left.id, "It went to the kiln before it was cast. Correct one of the two times.")
    if batch.cast:
        for entry in batch.of("bed", "turned", "sprinkled", "drum", "air"):
            in_rest = entry.kind == "bed" and any(
                not spell.wet and spell.begun <= entry.utc and (spell.ended is None or entry.utc < spell.ended)
                for spell in batch.spells
            )
            if entry.utc < batch.cast.utc and not in_rest:
                yield Doubtful(entry.id, f"{_named(entry)} comes before the cast.")


def _same_change(before: Entry | None, entry: Entry) -> bool:
    """Whether the end of a rest and the water that ended it were written as two lines of one minute."""
    return before is not None and before.kind != entry.kind and before.utc == entry.utc


def _stages(batch: Batch) -> Iterator[Doubtful]:
    water: bool | None = None
    before: Entry | None = None
    for entry in batch.of("stage-begun", "stage-ended"):
        word = batch.value(entry, "stage" if entry.kind == "stage-begun" else "ended")
        if word is None:
            continue
        on = word in (WET, FILLED)
        if not on and water is None:
            yield Doubtful(entry.id, f"{_named(entry)}: it ended before any water was written on.")
        elif on == water and (on or entry.kind == "stage-ended") and not _same_change(before, entry):
            said = "Water on" if on else "Drained"
            yield Doubtful(entry.id, f"{said} stands twice without the other between ({said_time(entry.local)}).")
        if on or water is not None:
            water, before = on, entry
        if batch.cast and entry.utc > batch.cast.utc:
            yield Doubtful(entry.id, f"{_named(entry)} comes after the cast.")


def _baskets(batch: Batch) -> Iterator[Doubtful]:
    lacks = tare_lacks(batch)
    if lacks:
        yield Doubtful("", lacks)
    named: dict[str, tuple[float, str]] = {}
    for question, words in (("basket_g", "empty basket"), ("sample_g", "barley in the basket")):
        at_start = batch.number(question)
        if at_start is not None:
            named[question] = at_start, "at the start"
        for entry in batch.of("basket"):
            grams = batch.value(entry, question)
            if grams is None:
                continue
            before = named.get(question)
            if before and before[0] != grams:
                yield Doubtful(
                    entry.id,
                    f"The {words} is {plain_number(grams)} g with this weighing, and {plain_number(before[0])} g "
                    f"{before[1]}. Each counts from where it was written. Correct the wrong one.",
                )
            named[question] = grams, f"with that of {said_time(entry.local)}"
    for entry in batch.of("basket"):
        gross, (basket, sample) = batch.value(entry, "gross_g"), batch.tare(entry)
        known = None not in (basket, sample, batch.number("barley_moisture"))
        if known and gross is not None and batch.basket(entry) is None:
            yield Doubtful(
                entry.id,
                f"{plain_number(gross)} g does not fit this basket of {plain_number(basket or 0)} g "
                f"with {plain_number(sample or 0)} g of barley. Weigh again, or correct the start.",
            )
    starts = batch.of("start")
    for text in unreadable_start(batch).values():
        yield Doubtful(starts[-1].id, f"{_named(starts[-1])}: {text} It is left out. Correct the start.")
    for entry, words in over_counted(batch):
        yield Doubtful(entry.id, f"{words} Correct it.")
    for entry, what in blank_lines(batch):
        yield Doubtful(entry.id, f"{_named(entry)}{said_of(batch, entry, what)}")


def too_dry_words(batch: Batch) -> str:
    """That the last moisture found cannot be so; nothing where it can, or a newer one can."""
    entry, own = batch.too_dry, batch.number("barley_moisture")
    if entry is None or own is None:
        return ""
    return (
        f"{_named(entry)}: {fixed(batch.value(entry, 'moisture'), 1)} % is less than the barley’s own "
        f"{plain_number(own)} %. It is not counted. Correct the line, or take a sample again."
    )


def unsure_words(batch: Batch) -> str:
    """That the last moisture found of a bed is none that a bed comes to in that time; nothing where it is."""
    one = unsure(batch)
    if one is None:
        return ""
    line = passed(MOISTURE, one.moisture)
    then = f" If that shows the same, it is past a stop. {said(line)}" if line and line.mark == "stop" else ""
    ask = "Take another sample before any water: too much of it costs the batch."
    return f"Doubtful. {_unsure(one)} {ask}{then}"


def _unsure(one: Sample) -> str:
    assert one.before is not None
    fall = one.before.moisture - one.moisture
    hours = (one.entry.utc - one.before.entry.utc).total_seconds() / 3600
    what = "dries" if fall > 0 else "rises without water"
    wrong = "One of the two is wrong" if fall > 0 else "One of the two is wrong, or water went on that is not written"
    was = f"{fixed(one.before.moisture, 1)} % of {said_time(one.before.entry.local)}"
    return (
        f"{_named(one.entry)}: {fixed(one.moisture, 1)} % is {fixed(abs(fall), 1)} points "
        f"{'under' if fall > 0 else 'over'} the {was}. In {plain_number(round(hours, 1))} h no bed {what} by more than "
        f"{fixed(one.most, 1)} points (reckoned as the batch forecast does, with what two samples scatter; our "
        f"judgement). {wrong}."
    )


def _samples(batch: Batch) -> Iterator[Doubtful]:
    """Samples of a bed that no bed can have come to; the last of them asks for another one."""
    for one in samples_of(batch):
        if not one.sure:
            yield Doubtful(one.entry.id, f"{_unsure(one)} It is not counted until another sample shows the same.")


def _readings(course: Course) -> Iterator[Doubtful]:
    own = course.before.steeping.barley_moisture
    for reading in course.left_out:
        if reading.moisture < own:
            text = f"{fixed(reading.moisture, 1)} % is less than the barley’s own {plain_number(own)} %."
        else:
            text = f"{fixed(reading.moisture, 1)} % at {fixed(reading.hours, 1)} h lies outside the steep."
        yield Doubtful(reading.entry.id, f"{text} It is not counted. Weigh again, or correct it.")
    ends = [end.hours for end in course.before.ends]
    for first, second in pairwise(course.readings):
        fall = first.moisture - second.moisture
        if fall > FALL_POINTS and first.drained == second.drained and first.entry.kind == second.entry.kind:
            stage = next((n for n, end in enumerate(ends) if second.hours <= end), 0)
            wet = stage % 2 == 0 and (not stage or first.hours > ends[stage - 1])
            because = "Barley under water does not get drier." if wet else "A rest dries it by a little at most."
            yield Doubtful(
                second.entry.id,
                f"Moisture fell from {fixed(first.moisture, 1)} to {fixed(second.moisture, 1)} %. {because} "
                "Weigh again, drained as long as the first time.",
            )
    fitted = course.fitted
    if fitted is None:
        return
    for reading, odd in zip(course.readings, fitted.odd, strict=True):
        if odd:
            yield Doubtful(
                reading.entry.id,
                f"{fixed(reading.moisture, 1)} % at {fixed(reading.hours, 1)} h stands alone: more than "
                f"{plain_number(ODD_SD * READING_SD)} points from what the others lead to. Weigh again.",
            )
    if len(course.readings) > 1 and abs(fitted.trust.z[1]) > START_OFF_SD:
        way = "wetter" if fitted.trust.z[1] > 0 else "drier"
        yield Doubtful(
            "",
            f"All weighings read {way} than any usual barley from the first one on. Look at the empty basket’s weight, "
            "the barley weighed into it and the barley’s own moisture: a wrong one of these does that.",
        )


def _cast(batch: Batch) -> Iterator[Doubtful]:
    """A cast past the stop of its moisture: a slip of the pen, or a batch in danger."""
    line = batch.cast_line
    if batch.cast and line and line.mark == "stop":
        target = batch.number("target_moisture")
        aim = f" The target was {plain_number(target)} %." if target is not None else ""
        yield Doubtful(
            batch.cast.id,
            f"{_named(batch.cast)}. {cast_stop(line)}{aim} Correct it if it was a slip. If not: {act_of(line)}"
            f"{told(line)}",
        )


def _chitted(batch: Batch) -> Iterator[Doubtful]:
    """A cast with too few chits, by the last count."""
    line = chit_line(batch)
    if batch.cast and line and line.mark == "stop":
        yield Doubtful(batch.cast.id, f"{_named(batch.cast)}. {said(line)} {CHITS_SHORT}{told(line)}")


def _oven(batch: Batch) -> Iterator[Doubtful]:
    """An oven sample after the last drain against the basket: a rest changes what is drained by little."""
    found = batch.readings
    for before, after in pairwise(found):
        oven = after.entry.kind != "basket" and batch.value(after.entry, "method") not in ("meter", QUICK)
        rest = batch.spells and not batch.spells[-1].wet and before.entry.utc >= batch.spells[-1].begun
        if before.entry.kind == "basket" and oven and rest and before.drained:
            apart = before.moisture - after.moisture
            if abs(apart) >= BASKET_OVEN_APART:
                way = "more" if apart > 0 else "less"
                yield Doubtful(
                    after.entry.id,
                    f"The basket showed {fixed(abs(apart), 1)} points {way} than the oven, with only a rest between. "
                    "One of the two is wrong. Weigh the empty basket again: written too light, it makes every weighing "
                    "read too wet. Then the barley weighed into it, and the sample.",
                )


def _quick(batch: Batch) -> Iterator[Doubtful]:
    """A quick moisture against the oven's of the same hour: the oven stands, and a gap is never passed over."""
    for entry in batch.of("moisture"):
        oven = batch.oven_beside(entry) if batch.outdone(entry) else None
        if oven is None:
            continue
        quick, slow = batch.value(entry, "moisture"), batch.value(oven, "moisture")
        if quick is None or slow is None or passed(AGAINST_OVEN, abs(quick - slow)) is None:
            continue
        way = "more" if quick > slow else "less"
        yield Doubtful(
            entry.id,
            f"{_named(entry)}: the quick way showed {fixed(abs(quick - slow), 1)} points {way} than the oven of the "
            "same "
            "hour. The oven’s figure is the one that counts here. Add the pair to your list, and do both again "
            "before the "
            "next decision that hangs on it.",
        )


def _water(batch: Batch) -> Iterator[Doubtful]:
    read = [(entry, batch.value(entry, "water_temp_c")) for entry in batch.of("stage-begun", "water")]
    temps = [(entry, temp) for entry, temp in read if temp is not None]
    if len(temps) < 3:
        return
    ranked = sorted(temp for _, temp in temps)
    half = (len(ranked) - 1) // 2
    for entry, temp in temps:
        middle = ranked[half + 1] if temp <= ranked[half] else ranked[half]  # of the others
        if abs(temp - middle) >= WATER_OFF_K:
            yield Doubtful(
                entry.id,
                f"{_named(entry)}: {plain_number(temp)} °C is {fixed(abs(temp - middle), 0)} K from the other waters "
                "of this steep. Was it read in the steep? The model counts it as it stands.",
            )


def _bed(batch: Batch) -> Iterator[Doubtful]:
    if batch.vessel != FLOOR:
        return
    for entry in batch.of("bed", "turned"):
        cm = batch.value(entry, "depth_cm")
        if cm is not None and cm > DEPTH_CM.high:
            deep = f"{plain_number(cm)} cm on a floor, where {plain_number(DEPTH_CM.high)} cm are more than enough"
            yield Doubtful(entry.id, f"{_named(entry)}: {deep}. Correct the line.")
    for entry in batch.of("bed"):
        values: Values = batch.values(entry)
        bottom, top = values.get("bottom_c"), values.get("top_c")
        room = values.get("room_c")
        if bottom is not None and top is not None and cooler_unexplained(bottom, top, room):
            yield Doubtful(
                entry.id,
                f"{_named(entry)}: bottom {plain_number(bottom)} °C is under top {plain_number(top)} °C. A growing "
                "piece is warmest at the floor, but for a warm room or a cold floor. Are the two swapped?",
            )


def loss_of(batch: Batch) -> float | None:
    """Dry matter lost from the barley to the kiln door, % of it; negative when more came out than went in."""
    barley, own = batch.number("barley_kg"), batch.number("barley_moisture")
    if batch.left is None or barley is None or own is None:
        return None
    green, moisture = batch.value(batch.left, "green_malt_kg"), batch.value(batch.left, "moisture")
    if green is None or moisture is None:
        return None
    held = share_of_dry_matter(part_kg=green, part_moisture=moisture, barley_kg=barley, barley_moisture=own)
    return 100.0 - held


def _weights(batch: Batch) -> Iterator[Doubtful]:
    loss = loss_of(batch)
    if loss is not None and loss < 0 and batch.left:
        yield Doubtful(
            batch.left.id,
            f"More dry matter goes to the kiln than the barley brought ({fixed(-loss, 1)} % more). Check both weights "
            "and both moistures.",
        )
    least = 100.0 - LOST.high
    short = None if loss is None else 100.0 * (1.0 - (100.0 - loss) / least)
    line = passed(WEIGHT, short) if short is not None else None
    if line and line.mark == "stop" and batch.left:
        yield Doubtful(
            batch.left.id,
            f"{_named(batch.left)}: it holds {fixed(100.0 - (loss or 0.0), 0)} % of the barley’s dry matter, and "
            f"{plain_number(least)} % and more are usual: {fixed(short or 0.0, 0)} % under plan. {stop_said(line)} Or "
            "was it a slip of the pen?",
        )


def _malt(batch: Batch) -> Iterator[Doubtful]:
    """An analysis that cannot be put beside others as it stands."""
    for entry in batch.of(MALT):
        values: Values = batch.values(entry)
        if values.get("extract_basis") == "as-is" and values.get("extract_percent") and not values.get("malt_moisture"):
            yield Doubtful(
                entry.id,
                f"{_named(entry)}: an extract as is needs the malt’s moisture before it can stand beside others. "
                "Correct "
                "the line, or write the extract on dry matter.",
            )
        if batch.left is None or entry.utc < batch.left.utc:
            yield Doubtful(
                entry.id, f"{_named(entry)}: an analysis of malt, and the batch has not gone to the kiln by then."
            )

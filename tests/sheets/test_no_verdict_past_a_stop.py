"""Over random input: no answer or verdict of a sheet lies past a stop of the table unless the stop is said before it.

The steep's orders have a file of their own, ``test_no_order_past_a_stop.py``; the day-book's steps theirs in
``tests/daybook``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import floor, pi

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.models.counts.intervals import clopper_pearson
from calculators.rules.intake import FIGURES
from calculators.rules.limits.germination_test import CAPACITY, ENERGY
from tests.sheets.stops import LIMITS, Result, asked, check, past, stops_said

often = settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
PEOPLE = ("danger", "warning", "caution")


def check_first(result: Result, found: Iterator[tuple[str, str]]) -> None:
    """The stops are said, and no remark stands before them."""
    check(result, found)
    levels = [note["level"] for note in result["notes"] if note["level"] not in PEOPLE]
    if stops_said(result):
        assert "remark" not in levels[: levels.index("notice")]


def high_only(name: str, value: float) -> Iterator[tuple[str, str]]:
    return (one for one in past(name, value) if not one[1].startswith("under"))


moistures = st.one_of(st.floats(30, 55), st.sampled_from([41.0, 40.99, 48.0, 48.01]))
temps = st.one_of(st.floats(1, 30), st.sampled_from([5.0, 4.99, 20.0, 20.01]))


@often
@given(moistures, st.none() | st.floats(4000, 14_000), st.floats(8, 18))
@example(49.0, None, 12.0)
@example(40.0, 10_900.0, 12.0)
def test_moisture_target(target, now, barley):
    result = asked(
        "moisture-target", barley_moisture=repr(barley), target_moisture=repr(target),
        current_kg="" if now is None else repr(now),
    )  # fmt: skip
    if result is None:
        return
    check_first(result, past("cast-moisture", target))
    if "current_moisture" in result["answers"]:
        check_first(result, high_only("cast-moisture", result["answers"]["current_moisture"]["value"]))


@often
@given(moistures, st.floats(180, 320), st.sampled_from(["drained", "blotted"]))
@example(49.0, 226.0, "drained")
@example(45.0, 262.0, "blotted")
def test_sample_basket(target, gross, drained):
    result = asked("sample-basket", target_moisture=repr(target), gross_now_g=repr(gross), drained=drained)
    if result is None:
        return
    check_first(result, past("cast-moisture", target))
    check_first(result, high_only("cast-moisture", result["answers"]["moisture_now"]["value"]))


@often
@given(st.floats(-5, 35), temps, temps, st.none() | st.floats(1, 60), st.floats(3000, 20_000))
@example(4.0, 7.0, 25.0, 45.0, 8000.0)
@example(30.0, 28.0, 14.0, 29.0, 8000.0)
@example(4.0, 7.0, 19.5, 45.0, 8000.0)
@example(-2.0, 1.0, 2.0, None, 3000.0)
def test_mixing_waters(barley, water, wanted, second, kg):
    result = asked(
        "mixing-waters", barley_temp_c=repr(barley), usual_water_c=repr(water), wanted_temp_c=repr(wanted),
        second_temp_c="" if second is None else repr(second), water_kg=repr(kg),
    )  # fmt: skip
    if result is None:
        return
    if mix := result["answers"].get("mix_temp_c"):
        check_first(result, past("steep-water-temp", mix["value"]))
    else:
        assert "would begin to freeze" in result["notes"][0]["text"]
    check_first(result, past("steep-water-temp", wanted))
    told = " ".join(note["text"] for note in result["notes"] if note["level"] == "notice")
    if result["answers"]["later_temp_c"]["high"] > 20.0:
        assert "20 °C is stop and ask" in told
    if nearest := re.search(r"comes nearest: (-?[\d.]+) °C", told):
        value = float(nearest[1])
        if abs(value - 20.0) > 0.06 and abs(value - 5.0) > 0.06:  # as shown, to a tenth
            check_first(result, past("steep-water-temp", value))


@often
@given(st.floats(30, 54), st.floats(30, 48))
@example(37.0, 39.0)
@example(48.0, 48.0)
def test_sprinkling(now, wanted):
    result = asked("sprinkling", moisture_now=repr(now), moisture_wanted=repr(wanted))
    if result is None:
        return
    if now >= 48.0:
        assert result["refused"].startswith("No water") and "water_l" not in result["answers"]
        return
    assert wanted <= 48.0
    check(result, past("germination-moisture", now))
    check(result, past("germination-moisture", wanted))


@often
@given(st.floats(2000, 12_000), st.floats(1.2, 1.6), st.floats(1.6, 2.6), st.floats(40, 95))
def test_drum_fill(barley, at_cast, grown, most):
    """The table has no limit of a drum: the reader's own is its stop, and a batch beyond it is refused."""
    result = asked(
        "drum-fill", barley_kg=repr(barley), swelling_cast=repr(at_cast), swelling_grown=repr(grown),
        fill_limit_percent=repr(most),
    )  # fmt: skip
    if result is None:
        return
    if "refused" in result:
        assert result["refused"].startswith("This batch is too large") and not result["answers"]
        return
    answers = result["answers"]
    assert answers["fill_percent_cast"]["value"] <= answers["fill_percent_grown"]["value"] <= most
    assert answers["most_barley_kg"]["value"] >= floor(barley)


@often
@given(st.floats(500, 12_000), st.floats(1.0, 1.8), st.one_of(st.floats(0, 0.4), st.sampled_from([0.05, 0.0499])))
@example(9200.0, 1.1, 0.15)
@example(6000.0, 1.4, 0.03)
@example(6000.0, 1.4, 0.0)
def test_steep_vessel(barley, swelling, cover):
    given_values = {"swelling": repr(swelling), "water_cover_m": repr(cover)}
    result = asked("steep-vessel", barley_kg=repr(barley), **given_values)
    if result is None or "refused" in result:
        return
    check_first(result, past("water-over-grain", 100 * cover))
    whole, dry = pi * 3.2**2 / 4 * (1.6 + 1.8 / 3), result["answers"]["grain_m3"]["value"]
    check_first(result, past("room-for-swelling", 100 * (whole / dry - 1)))
    most = asked("steep-vessel", barley_kg=repr(result["answers"]["most_barley_kg"]["value"]), **given_values)
    assert most is not None and "refused" not in most
    assert "Room for swelling" not in stops_said(most), "the most that fits lies past no stop"


beds = st.one_of(st.floats(5, 30), st.sampled_from([8.0, 7.99, 20.0, 20.01]))


@often
@given(st.lists(beds, min_size=1, max_size=6), st.none() | st.floats(30, 55))
@example([14.0, 24.0], 39.0)
@example([7.0], None)
def test_days_to_ready(days, wet):
    rows = "; ".join(f"{day} {temp!r}" for day, temp in enumerate(days, 1))
    result = asked(
        "days-to-ready", bed_temp_c="", temperatures=rows, days_done="0", moisture="" if wet is None else repr(wet)
    )
    if result is None:
        return
    gone = [temp for temp in days if any(past("floor-piece", temp))]
    check_first(result, past("floor-piece", gone[-1]) if gone else iter(()))
    check_first(result, past("germination-moisture", wet))


@often
@given(st.floats(20, 60), st.floats(2, 12))
@example(37.9, 4.0)
@example(47.1, 4.0)
def test_kiln_water(green, malt):
    result = asked("kiln-water", green_malt_moisture=repr(green), malt_moisture=repr(malt))
    if result is not None:
        check_first(result, past("kiln-moisture", green))


grown = st.one_of(st.integers(80, 100), st.integers(0, 100))


@often
@given(grown, grown, st.none() | grown, st.sampled_from([80, 90, 95]), st.sampled_from([80, 95]))
@example(98, 68, None, 95, 95)
@example(88, 85, 90, 80, 80)
def test_germination_test(energy, wet, alive, least, never):
    def dishes(count: int) -> str:
        return "; ".join([f"{count} 100"] * 4)

    result = asked(
        "germination-test", replicates=dishes(energy), replicates_8ml=dishes(wet),
        capacity_rows="" if alive is None else dishes(alive), limit_percent=str(least),
        capacity_reject_percent=str(never), daily="", daily_kind="",
    )  # fmt: skip
    if result is None:
        return
    said = stops_said(result)
    if energy - wet >= 30:
        assert "Water-sensitive: 30 points" in said and result["answers"]["water_class"]["value"] == "sensitive"
    verdict = result["answers"]["verdict"]["value"]
    if verdict in ("meets-limit", "grey-band"):
        for limit, count in ((ENERGY, energy), (CAPACITY, alive)):
            if count is not None and 100 * clopper_pearson(4 * count, 400).high < 95.0:
                assert f"{limit.quantity}" in said and "under 95 %" in said
    if alive is not None and 100 * clopper_pearson(4 * alive, 400).high < never:
        assert verdict in ("capacity-low", "undecided")


@often
@given(
    st.lists(st.integers(0, 60), min_size=5, max_size=5), st.none() | st.integers(0, 50), st.sampled_from([10, 20, 25]),
)  # fmt: skip
@example([1, 3, 9, 70, 17], 20, 20)
@example([1, 3, 9, 84, 12], None, 10)
@example([1, 3, 9, 84, 3], 24, 10)
def test_readiness(counts, flour, most):
    result = asked(
        "readiness", counts="; ".join(map(str, counts)), overshot_limit=str(most),
        rub="" if flour is None else f"{50 - flour}; 0; {flour}",
    )  # fmt: skip
    if result is None:
        return
    share = 100.0 * counts[-1] / sum(counts)
    if result["answers"]["verdict"]["value"] != "late":
        check_first(result, past("overshot-share", share))
    if flour is not None:
        check_first(result, past("dry-flour-share", 2.0 * flour))
        if 100 * clopper_pearson(flour, 50).high < 75.0:
            assert result["answers"]["verdict"]["value"] in ("wait", "late")


@often
@given(
    st.floats(9, 20), st.floats(0, 40), st.floats(80, 100), st.floats(80, 100), st.floats(0, 20), st.floats(0, 1),
    st.booleans(),
)  # fmt: skip
@example(16.0, 33.0, 90.0, 92.0, 9.0, 0.3, True)
def test_intake_check(moisture, warm, energy, capacity, screenings, ergot, loose):
    """With the table's limits, and with a house's that let more pass."""
    wide = {
        "moisture_limit_percent": "20", "dry_to_percent": "16", "energy_limit_percent": "80",
        "capacity_limit_percent": "80", "capacity_reject_percent": "80", "limit_screenings_percent": "20",
        "limit_ergot_g_kg": "1", "limit_temperature_c": "40",
    }  # fmt: skip
    result = asked(
        "intake-check", moisture=repr(moisture), temperature_c=repr(warm), energy_percent=repr(energy),
        capacity_percent=repr(capacity), screenings_percent=repr(screenings), ergot_g_kg=repr(ergot),
        **(wide if loose else {}),
    )  # fmt: skip
    if result is None:
        return
    seen = {
        "moisture": ("gate-moisture", moisture), "energy": ("germination-energy", energy),
        "capacity": ("germination-capacity", capacity), "screenings": ("screenings", screenings),
        "ergot": ("ergot", ergot), "grain temperature": ("gate-temp", warm),
    }  # fmt: skip
    lines = {row[0].lower(): row[3] for row in result["tables"]["lines"]["rows"]}
    for label, (name, value) in seen.items():
        if any(past(name, value)) and not lines[label].startswith(("reject", "ask", "dry", "rest", "stop")):
            check_first(result, past(name, value))
    if not loose and any(any(past(name, value)) for name, value in seen.values()):
        assert result["answers"]["verdict"]["value"] != "take"
    if "dry_to" in result["answers"]:
        check_first(result, past("store-moisture", result["answers"]["dry_to"]["value"]))


@often
@given(st.floats(2, 25), st.floats(0.5, 40), st.floats(1, 96), st.floats(0, 30), st.floats(5, 18))
@example(17.9, 25.0, 24.0, 20.0, 17.0)
@example(18.1, 1.0, 8.0, 5.0, 17.0)
def test_rest_warmth(start, hours, since, air, hold):
    result = asked(
        "rest-warmth", start_c=repr(start), rest_h=repr(hours), since_wetting_h=repr(since), air_c=repr(air),
        hold_c=repr(hold),
    )  # fmt: skip
    if result is None:
        return
    answers = result["answers"]
    check_first(result, past("rest-hours", hours))
    for name, figure in (("rest-temp", "end_c"), ("rest-rise", "rise_k_h")):
        for end in ("value", "high"):
            check_first(result, past(name, answers[figure][end]))
            if any(past(name, answers[figure][end])):
                assert answers["order"]["value"].startswith(("stop", "may-stop"))


def test_every_figure_of_the_intake_has_its_limit():
    assert {limit.id for limit in FIGURES.values()} <= set(LIMITS)


@often
@given(
    st.floats(26, 52), moistures, st.integers(0, 200), st.sampled_from(["couch", "drum"]),
    st.sampled_from(["fresh", "flat", "sour", "musty"]), st.floats(4, 26), st.floats(0, 40),
    st.none() | st.floats(50, 100), st.sampled_from([20, 40, 50, 70]),
)  # fmt: skip
@example(45.0, 45.0, 120, "drum", "fresh", 16.0, 10.0, 55.0, 50)
@example(42.0, 45.0, 80, "drum", "fresh", 16.0, 30.0, None, 30)
@example(49.0, 49.0, 195, "drum", "fresh", 16.0, 10.0, None, 70)
@example(46.0, 50.0, 20, "drum", "fresh", 16.0, 10.0, None, 70)
@example(45.0, 45.0, 195, "drum", "fresh", 6.0, 10.0, None, 70)
def test_cast_decision(moisture, target, chitted, to, smell, warm, rested, wanted, dip):
    result = asked(
        "cast-decision", moisture_drained=repr(moisture), target_moisture=repr(target), chitted=str(chitted),
        cast_to=to, smell=smell, grain_temp_c=repr(warm), hours_since_drain=repr(rested),
        chit_cast="" if wanted is None else repr(wanted), chit_dip=str(dip),
    )  # fmt: skip
    if result is None:
        return
    verdict, share = result["answers"]["verdict"]["value"], chitted / 2.0
    if smell in ("sour", "musty"):
        assert verdict == "hold"
    check(result, past("cast-moisture", target))
    check(result, high_only("rest-hours", rested))
    told = " ".join(note["text"] for note in result["notes"] if note["level"] == "notice")
    if moisture > 48.0:
        assert "48 %" in told
    if warm > 18.0:
        assert "above 18 °C" in told
    if verdict == "wet-again":
        check(result, past("chit-last-dip", share))
    if verdict == "cast":
        check(result, past("chit-couch" if to == "couch" else "chit-cast", share))
        if moisture < 41.0:
            check(result, past("cast-moisture", moisture))
        if warm < 8.0:
            check(result, past("cast-grain-temp", warm))


@often
@given(st.sampled_from(["drum", "box", "floor", "rest"]), st.floats(5, 40), moistures, st.integers(0, 8))
@example("drum", 20.0, 45.0, 3)
@example("drum", 20.01, 48.01, 3)
@example("floor", 22.01, 39.9, 4)
@example("rest", 18.01, 45.0, 0)
def test_fan_stopped(place, temp, wet, day):
    result = asked(
        "fan-stopped", place=place, grain_temp_c=repr(temp), bed_moisture=repr(wet), day=str(day), respiration_kw_t=""
    )
    if result is None:
        return
    assert [note["level"] for note in result["notes"][:2]] in (["danger", "danger"], ["danger", "warning"])
    if result.get("refused"):
        return
    name = {"drum": "drum-bed", "box": "drum-bed", "floor": "floor-bottom", "rest": "rest-temp"}[place]
    check_first(result, high_only(name, temp))
    if place != "rest":
        check_first(result, past("germination-moisture", wet))

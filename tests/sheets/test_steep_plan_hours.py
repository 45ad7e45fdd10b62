"""When somebody has to be at the steep: the schedule of a plan by the clock."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from tests.sheets.ask import ask, notes


def minutes(moment: datetime) -> int:
    return moment.hour * 60 + moment.minute


def test_schedule_adds_up_on_the_clock():
    rows = ask("steep-plan", start="2026-01-12 06:00")["tables"]["schedule"]["rows"]
    plans = {row[0] for row in rows}
    assert plans <= {1, 2, 3} and len(plans) >= 2
    for plan in plans:
        moment, drained, rest = datetime(2026, 1, 12, 6, 0), 0.0, None
        shown = [row for row in rows if row[0] == plan]
        for _, number, fill, covered, drain, dry, wet, drained, rest in shown:  # noqa: B007
            assert datetime.fromisoformat(covered) == moment
            assert moment - datetime.fromisoformat(fill) == timedelta(minutes=60)
            if number > 1:
                assert minutes(moment - timedelta(minutes=60)) >= 5 * 60 and minutes(moment) < 22 * 60
            moment += timedelta(hours=wet)
            assert datetime.fromisoformat(drain) == moment
            assert datetime.fromisoformat(dry) - moment == timedelta(minutes=60)
            assert 5 * 60 <= minutes(moment) <= 21 * 60
            moment += timedelta(hours=rest or 0)
        assert rest is None and drained == pytest.approx(45.0, abs=0.3)


def test_nobody_fills_or_drains_while_nobody_is_there():
    """From 18:00 to 07:00 nothing is opened or shut, from the plan that stands first to the last."""
    for start in ("06:00", "07:00", "08:00"):
        result = ask("steep-plan", start=start, quiet_from="18:00", quiet_until="07:00", cast_from="", cast_until="")
        assert result["answers"]["wishes"]["value"] == ("kept" if start == "08:00" else "not-kept")
        for _, number, fill, covered, drain, dry, *_ in result["tables"]["schedule"]["rows"]:
            for moment in [drain, dry] + ([fill, covered] if number > 1 else []):
                assert 7 * 60 <= minutes(datetime.fromisoformat(moment)) <= 18 * 60
    # Begun at 13:30 the first drain would come at 17:00, too dry, or after 17 h, too late.
    late = ask("steep-plan", start="13:30", quiet_from="18:00", quiet_until="07:00", cast_from="", cast_until="")
    assert late["answers"]["wishes"]["value"] == "stop"
    assert late["notes"][0]["text"].startswith("Past a stop") and "under 28 %" in late["notes"][0]["text"]
    said_first = notes("steep-plan", start="06:00", quiet_from="18:00", quiet_until="07:00")
    assert "notice: Covered at 06:00 means water on at 05:00" in said_first and "start at 08:00" in said_first


def test_the_first_fill_too_keeps_to_the_hours_when_somebody_is_there():
    """Covered at 07:00 after a fill of an hour is water on at 06:00; 08:00 is the first start that somebody fills."""
    times = {"quiet_from": "18:00", "quiet_until": "07:00", "cast_from": "", "cast_until": ""}
    for start, fill, kept in (
        ("07:00", "60", False), ("07:59", "60", False), ("08:00", "60", True), ("07:00", "0", True),
        ("18:00", "60", False), ("17:59", "60", None),
    ):  # fmt: skip
        result = ask("steep-plan", start=start, fill_minutes=fill, **times)
        first = result["tables"]["schedule"]["rows"][0]
        on, covered = (minutes(datetime.fromisoformat(moment)) for moment in first[2:4])
        assert (covered - on) % 1440 == int(fill)
        quiet = any("lies in the hours when nobody is there" in note["text"] for note in result["notes"])
        assert quiet == (kept is False), start
        if kept is not None:
            assert (result["answers"]["wishes"]["value"] == "kept") == kept, start
    midnight = ask("steep-plan", start="00:00")["tables"]["schedule"]["rows"][0]
    went_on, stood = (datetime.fromisoformat(moment) for moment in midnight[2:4])
    assert (stood - went_on).total_seconds() == 3600.0, "water goes on the evening before"
    assert "water on at 06:00" in notes("steep-plan", start="07:00", **times)
    assert "If not, start at 08:00." in notes("steep-plan", start="07:00", **times)


def test_times_of_filling_and_draining_are_asked_for_and_kept():
    quick = ask("steep-plan", fill_minutes="15", drain_minutes="30")["tables"]["schedule"]["rows"][1]
    assert minutes(datetime.fromisoformat(quick[3])) - minutes(datetime.fromisoformat(quick[2])) == 15
    assert minutes(datetime.fromisoformat(quick[5])) - minutes(datetime.fromisoformat(quick[4])) == 30
    slow = notes("steep-plan", drain_minutes="91", fill_minutes="121", shortest_rest_h="6")
    assert slow.startswith("notice: Past a stop: the plans below.") and "over 120 min" in slow and "over 90 min" in slow
    below = notes("steep-plan", longest_immersion_h="12", quiet_from="", quiet_until="", water_temp_c="6")
    assert "Past a stop at the bottom: an immersion of" in below and "from water on until drained" in below

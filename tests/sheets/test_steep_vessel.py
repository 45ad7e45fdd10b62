"""The steep's vessel: geometry against other formulas, overfilling, water, bad input."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from calculators.models.steep.vessel import TAKEN_UP_M3_T, fill, filled_to, vessel, volume_to
from tests.sheets.ask import ask, notes, said, values, wrong

LENGTHS = st.floats(0.3, 6.0)


@given(LENGTHS, st.floats(0.1, 6.0), st.floats(0.0, 5.0))
def test_volume_is_the_integral_of_the_sections(diameter, cylinder, cone):
    shape = vessel(diameter_m=diameter, cylinder_m=cylinder, cone_m=cone)

    def section(z):
        across = diameter if z >= cone else diameter * z / cone
        return pi * across**2 / 4.0

    whole, _ = quad(section, 0.0, cone + cylinder, points=[cone] if cone > 0.0 else None)
    assert shape.volume_m3 == pytest.approx(whole, rel=1e-6)


@given(LENGTHS, st.floats(0.1, 6.0), st.floats(0.0, 5.0), st.floats(0.001, 0.999))
def test_height_and_volume_undo_each_other(diameter, cylinder, cone, share):
    shape = vessel(diameter_m=diameter, cylinder_m=cylinder, cone_m=cone)
    height = share * shape.height_m
    assert filled_to(volume_m3=volume_to(height_m=height, shape=shape), shape=shape) == pytest.approx(height, rel=1e-9)


def test_published_water_and_swelling():
    # Barley at 12 % to 45 %: 1000 kg take up 600 kg (reference arithmetic, computed).
    assert pytest.approx((100 - 12) / (100 - 45) - 1) == TAKEN_UP_M3_T
    # 48 lb a bushel: 617.85 kg/m3 (exact arithmetic), so 1000 kg take 1.618 m3 dry.
    found = values("steep-vessel", barley_kg="1000", bulk_density="617.85", swelling="1")
    assert found["grain_m3"] == pytest.approx(1.6185, abs=1e-4)
    # Modares article 23-10966 (read): 613.68 and 1245.72 kg/m3 give 50.74 % gaps.
    assert pytest.approx(50.74, abs=0.005) == 100 * (1 - 613.68 / 1245.72)
    # MAGB (read): around 4 m3 a tonne of malt; 3.5 to 7 by practice.
    assert 3.0 <= values("steep-vessel")["water_m3_t"] <= 7.0


def test_a_fill_of_a_flat_vessel_by_hand():
    # 3 m wide, flat: 7.0686 m2.  5 m3 of grain, half gaps, 0.2 m above: 6.414 m3 in all, 3.914 m3 of water.
    shape = vessel(diameter_m=3.0, cylinder_m=2.0, cone_m=0.0)
    found = fill(grain_m3=5.0, water_cover_m=0.2, porosity_percent=50.0, shape=shape)
    assert found.level_m3 == pytest.approx(5.0 + 0.2 * 7.0686, abs=1e-4)
    assert found.water_m3 == pytest.approx(2.5 + 0.2 * 7.0686, abs=1e-4)
    same = fill(grain_m3=5.0, water_cover_m=0.2, porosity_percent=50.0, shape=shape.surface_m2)
    assert same.level_m3 == pytest.approx(found.level_m3)


@pytest.mark.parametrize("diameter", [f"{2 + step * 0.17:.2f}" for step in range(14)] + ["3.2"])
def test_the_most_that_is_shown_fits_and_a_kilogram_more_is_refused(diameter):
    most = values("steep-vessel", barley_kg="500", diameter_m=diameter)["most_barley_kg"]
    assert most == int(most), "what is shown in whole kilograms is what is meant"
    full = values("steep-vessel", diameter_m=diameter, barley_kg=repr(most))
    assert full["freeboard_m"] == pytest.approx(0.0, abs=0.001) and full["most_barley_kg"] == most
    refused = ask("steep-vessel", diameter_m=diameter, barley_kg=repr(most + 1))["refused"]
    assert "overflow" in refused and f"At most {most:.0f} kg" in refused


@pytest.mark.parametrize(("cover", "words"), [("0", "0 cm"), ("0.03", "3 cm"), ("0.05", ""), ("0.15", "")])
def test_too_little_water_above_the_grain_is_a_stop(cover, words):
    told = [note for note in ask("steep-vessel", water_cover_m=cover)["notes"] if note["level"] != "danger"]
    if words:
        assert told[0]["text"].startswith(f"Past a stop. Water above the grain {words}: the stop is under 5 cm.")
    else:
        assert "Past a stop" not in notes("steep-vessel", water_cover_m=cover)


def test_too_little_room_for_swelling_is_a_stop_and_no_most_lies_past_it():
    # 17.69 m³ over 9200 / 618 = 14.89 m³ dry: 18.9 % (by hand)
    told = [
        note for note in ask("steep-vessel", swelling="1.1", barley_kg="9200")["notes"] if note["level"] != "danger"
    ]
    assert told[0]["text"].startswith(
        "Past a stop. Room for swelling, above the dry volume 18.9 %: the stop is under 25"
    )
    # 17.69 / 1.25 × 618 = 8747 kg
    assert values("steep-vessel", swelling="1.1", barley_kg="6000")["most_barley_kg"] == pytest.approx(8747, abs=1)
    assert "Room for swelling" not in notes("steep-vessel", barley_kg="6500")


def test_a_load_that_stays_in_the_cone():
    found = values("steep-vessel", barley_kg="300", diameter_m="3.2", cylinder_m="1.6", cone_m="1.8")
    assert found["freeboard_m"] > 1.6


def test_a_volume_alone_gives_room_but_no_freeboard():
    given_volume = {"diameter_m": "", "cylinder_m": "", "cone_m": "", "vessel_m3": "18", "surface_m2": "8"}
    found = values("steep-vessel", **given_volume)
    assert "freeboard_m" not in found
    assert found["room_left_m3"] == pytest.approx(18 - 6000 / 618 * 1.4 - 0.15 * 8)
    assert "refused" in ask("steep-vessel", **{**given_volume, "vessel_m3": "14"})


def test_barley_that_swells_more_is_foreseen():
    freeboard = ask("steep-vessel")["answers"]["freeboard_m"]
    assert freeboard["low"] < freeboard["value"] < freeboard["high"]
    assert "would overflow" in notes("steep-vessel", barley_kg="7150")
    assert "would overflow" not in notes("steep-vessel")


def test_nobody_goes_in():
    for kg in ("6000", "9000"):
        result = ask("steep-vessel", barley_kg=kg)
        assert any(n["level"] == "danger" and "no entry" in n["text"] for n in result["notes"])


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"bulk_density": "449"}, "from 450 to 800 kg/m³"),
        ({"bulk_density": "801"}, "from 450 to 800 kg/m³"),
        ({"swelling": "0.99"}, "from 1 to 1.8"),
        ({"swelling": "1.81"}, "from 1 to 1.8"),
        ({"cylinder_m": "0", "cone_m": "0"}, "from 0.1 to 20 m"),
        ({"fills": "2.5"}, "not whole"),
        ({"vessel_m3": "18"}, "both given"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in "\n".join(problem.text for problem in wrong("steep-vessel", **given_values))


def test_one_shape_is_asked_for():
    assert "one of these is needed" in said("steep-vessel", diameter_m="", cylinder_m="", cone_m="")

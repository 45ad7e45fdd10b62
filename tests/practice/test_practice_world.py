"""The hidden world against what stands outside it, and the good hand that sees none of it."""

from __future__ import annotations

import ast
from itertools import pairwise
from pathlib import Path

import pytest

from calculators.models.bed.floor import DRY_KG_M3, HEAT_CAPACITY_KJ_M3_K
from calculators.models.steep.hydration import RATE_PER_H
from calculators.models.steep.sphere import filled_fraction
from calculators.practice import good_hand
from calculators.practice.debrief import good_run
from calculators.practice.hidden import hidden
from calculators.practice.moves import MOST_CHARACTERS
from calculators.practice.play import play
from calculators.practice.view import view_of
from calculators.practice.world import LAYERS, World

ROOMS = Path(good_hand.__file__).parents[1]


def plain(number: int = 4) -> World:
    this = hidden(number, ())
    lot = this.lot._replace(rate_factor=1.0, first_uptake_db=0.0, surface_db=1.0, leached=0.0, breath_factor=1e-9)
    return World(number, this._replace(lot=lot, inside=0.0, water_c=15.0))


def test_a_corn_under_water_drinks_as_the_published_series_of_a_sphere():
    """Crank 1975, The Mathematics of Diffusion, eq. 6.20, as ``sphere.filled_fraction`` has it (tested there)."""
    world = plain()
    world.fill()
    start = world.zones[0].water
    for hour in (4, 8, 12):
        world.cut_at(60 * hour)
        filled = (world.zones[0].water - start) / (1.0 - start)
        assert filled == pytest.approx(filled_fraction(fo=RATE_PER_H * hour), abs=0.035)


def test_a_piece_at_rest_has_the_parabola_of_a_heated_slab():
    """Carslaw & Jaeger 1959, heat made evenly in a slab, one side sealed: q L²/2k between the sides (from memory)."""
    world = plain()
    world.where, world.depth_m = "floor", 0.12
    world.this = world.this._replace(surface_w_m2_k=10.0, conducts_w_m_k=0.2, swing_k=0.0)
    zone, heat = world.zones[0], 0.05  # kW a tonne is dry0 of barley; here it is made constant
    world._breathe = lambda z, hours, lets, wet: heat  # type: ignore[method-assign, assignment]
    for _ in range(4000):
        zone.water = 0.8
        world._lie(zone, 1.0, 0.25, 12.0, 0)
    made = heat * 1000.0 / (zone.dry / DRY_KG_M3)
    ends = made * 0.12**2 / (2.0 * 0.2)
    between_middles = ends * ((1 - 0.5 / LAYERS) ** 2 - (0.5 / LAYERS) ** 2)
    assert zone.layers[0] - zone.layers[-1] == pytest.approx(between_middles, rel=0.15)
    assert zone.layers[-1] - 12.0 == pytest.approx(made * 0.12 * (1 / 10.0 + 0.5 * 0.12 / LAYERS / 0.2), rel=0.05)
    assert HEAT_CAPACITY_KJ_M3_K > 1000.0


def test_water_and_dry_matter_are_kept_through_a_steep():
    world = World(9, hidden(9, ()))
    world.fill()
    world.cut_at(480)
    world.drain()
    held = [(zone.water + zone.film) * zone.dry for zone in world.zones]
    world.suction = 0
    world.cut_at(900)
    for zone, before in zip(world.zones, held, strict=True):
        assert (zone.water + zone.film) * zone.dry + zone.evaporated == pytest.approx(before, rel=0.01)
    assert all(a >= 0 for zone in world.zones for a in zone.shells)


@pytest.mark.parametrize("number", range(1, 40))
def test_no_number_is_hopeless(number):
    this = hidden(number, ())
    assert 0.7 <= this.lot.rate_factor <= 1.45 and this.lot.corns.grows > 0.93
    assert sum(place.share for place in this.places) == pytest.approx(1.0)


def test_the_world_is_not_the_model_of_the_sheets():
    this = hidden(11, ())
    assert len({place.drinks for place in this.places}) == 3
    assert len({this.film_db(11, n) for n in (1, 2, 3)}) == 3
    assert this.inside > 0 and this.rise_h != 45.0


def test_the_good_hand_is_given_no_truth():
    run, _ = good_run(6, "3", "none")
    assert any(read.truth is not None for read in run.reads)
    assert all(read.truth is None for read in view_of(run).reads)
    files = sorted(Path(good_hand.__file__).parent.glob("good_*.py"))
    assert len(files) >= 4
    for file in files:
        tree = ast.parse(file.read_text())
        seen = {n.attr for n in ast.walk(tree) if isinstance(n, ast.Attribute)}
        assert not seen & {"world", "sampled", "truth", "hidden"}, file.name


@pytest.mark.further(keep=2)
@pytest.mark.parametrize("number", range(1, 9))
def test_the_good_hand_brings_a_batch_to_the_kiln_in_a_short_link(number):
    run, steps = good_run(number, "4", "")
    assert run.ended == "kiln"
    moves = "-".join(step.move for step in steps)
    assert len(moves) < MOST_CHARACTERS
    again = play(number, "4", "", moves)
    assert again.scene.ended == "kiln" and again.left_out == ()


def test_turning_points_name_what_was_known():
    run, _ = good_run(14, "3", "")
    assert run.ended == "kiln"
    moves = "pl-tr-fi-wa600-bd~40-dr-wa300-we-ho-dr-wa800-cf40-ho-wa600-br30-ho-wa900-ho-tu-ho-us"
    played = play(14, "3", "", moves, debrief=True)
    found = played.debrief
    assert found is not None and 1 <= len(found.points) <= 3
    for point in found.points:
        assert point.known and point.you and point.good and point.did
        assert (ROOMS.parent / "docs" / f"{point.page}.md").is_file()
    for _, _, back in found.back:
        assert played.moves.startswith(back)
    assert [a.minute < b.minute for a, b in pairwise(found.points)] == [True] * (len(found.points) - 1)


def test_nothing_of_the_practice_batch_is_known_to_records_and_papers():
    for room in ("daybook", "papers", "sheets", "rules", "models", "words", "exercises", "plates"):
        for path in (ROOMS / room).rglob("*.py"):
            assert "practice import" not in path.read_text() and "..practice" not in path.read_text(), path

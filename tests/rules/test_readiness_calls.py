"""How often the rule calls pieces right: the page’s table is that of the bench, within the error of sampling."""

from __future__ import annotations

import re
from math import sqrt
from pathlib import Path

import pytest
from scipy import stats

from bench.readiness_calls import DAYS, PIECES, WORDS, calls, hours_told, lengths, table
from calculators.rules import readiness as rule

PAGE = (Path(__file__).parents[2] / "docs" / "calculators" / "readiness.md").read_text(encoding="utf-8")
PUBLISHED_OF, DRAWN = 1000, 120
ROWS = {
    cells[1]: cells[2:]
    for cells in ([cell.strip() for cell in line.split("|")] for line in PAGE.splitlines())
    if len(cells) > 4 and re.fullmatch(r"[\d.]+ / [\d.]+", cells[1])
}


def published(piece: str, setting: int) -> dict[str, float]:
    """The shares of one cell, by word; a word that is not named got under half a per cent."""
    parts = ROWS[piece][1 + setting].split(", ")
    return {name: float(share) / 100 for name, share in (part.split() for part in parts)}


def test_the_table_has_every_piece_and_its_shares_add_up():
    assert list(ROWS) == [f"{piece.ready:g} / {piece.overshot:g}" for piece in PIECES]
    head = next(line for line in PAGE.splitlines() if line.startswith("| Ready / overshot"))
    assert next(table(1)) == head
    for piece, cells in ROWS.items():
        assert cells[0] in WORDS.values()
        for setting in range(4):
            assert sum(published(piece, setting).values()) == pytest.approx(1, abs=0.021), (piece, setting)


def test_a_piece_has_the_shares_that_it_is_named_for():
    # scipy.stats.norm
    for piece in PIECES:
        mean, sd = lengths(piece)
        assert 100 * stats.norm.sf(1.0, mean, sd) == pytest.approx(piece.overshot)
        assert 100 * stats.norm.sf(0.75, mean, sd) == pytest.approx(piece.ready + piece.overshot)


@pytest.mark.parametrize(
    ("name", "corns", "days"),
    [("86 / 4", 100, 1), ("82 / 3", 100, 1), ("82 / 3", 100, 3), ("88 / 8", 100, 1), ("78 / 2", 200, 1),
     ("69 / 1", 100, 1), ("64 / 1", 100, 3), ("80 / 12", 100, 1), ("80 / 15", 200, 3)],
)  # fmt: skip
def test_the_page_says_what_the_rule_does(name, corns, days):
    piece = next(one for one in PIECES if f"{one.ready:g} / {one.overshot:g}" == name)
    said = calls(piece, corns, days, DRAWN, seed="another")
    printed = published(name, 2 * (corns == 200) + DAYS.index(days))
    for word, short in WORDS.items():
        share, wanted = said[word] / DRAWN, printed.get(short, 0.0)
        # three and a half standard errors of both draws, never taken as none, and the page's rounding
        spread = max(wanted * (1 - wanted), 0.01)
        assert abs(share - wanted) < 3.5 * sqrt(spread * (1 / DRAWN + 1 / PUBLISHED_OF)) + 0.005, (word, share, wanted)


def test_good_pieces_go_and_early_ones_wait_from_a_hundred_corns():
    # what was undecided in half and in two thirds of all counts
    for name in ("86 / 4", "82 / 3"):
        assert published(name, 0)["kiln"] >= 0.98
    assert published("64 / 1", 0)["wait"] >= 0.95 and published("80 / 15", 0)["late"] >= 0.9


def test_the_hours_are_as_good_as_the_page_says():
    printed = re.search(r"off by ([\d.]+) h with one day’s count of 100 corns, and by ([\d.]+) h with two", PAGE)
    lowest = re.search(r"held in (\d+) to \d+ of 100 pieces", PAGE)
    assert printed and lowest
    piece = next(one for one in PIECES if one.ready == 20)
    for days, wanted in zip(DAYS, printed.groups(), strict=True):
        found = hours_told(piece, 100, days, 200, seed="another")
        # a median of 200, of errors spread over some hours: a standard error of about a third of an hour
        assert found.off == pytest.approx(float(wanted), abs=1.2)
        assert found.inside > float(lowest[1]) / 100 - 3.5 * sqrt(0.06 / 200) - 0.005
    assert float(printed[2]) < float(printed[1])


def test_the_costs_on_the_page_are_those_of_the_rule():
    costs = [
        ("still wants at three quarters", rule.SHORT),
        ("overshot beyond the limit", rule.OVERSHOT),
        ("dry matter breathed away", rule.DAY_BREATHED),
        ("stands for it", rule.DAY_OF_THE_PLACE),
        ("a hundred corns counted", rule.HUNDRED_COUNTED),
    ]
    for words, cost in costs:
        row = next(line for line in PAGE.splitlines() if line.startswith("|") and words in line)
        assert f"| {cost.points:g} |" in row and cost.standing in row, row

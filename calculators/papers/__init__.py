"""Record sheets: each declared once, drawn blank for the page and filled with a sheet's case in the browser."""

from __future__ import annotations

from .analysed import ANALYSIS, PAIRS
from .cleaning import CLEANING
from .grain import GRAIN_TEST, READINESS, STORE_ROUND
from .growing import BOX, DRUM, FLOOR
from .kinds import Paper
from .steep import STEEP

PAPERS = {
    paper.id: paper
    for paper in (GRAIN_TEST, STORE_ROUND, STEEP, PAIRS, FLOOR, DRUM, BOX, READINESS, CLEANING, ANALYSIS)
}


def papers_of(sheet_id: str) -> list[Paper]:
    """The record sheets that the case of a sheet may fill."""
    return [paper for paper in PAPERS.values() if sheet_id in paper.sheets]

"""The record of competence: the jobs that are signed off, in the order of the work, and what a house says of each."""

from __future__ import annotations

from typing import NamedTuple

from ..house import here
from ..rules import house
from .declare import NO_LEAVE, STAGES, Job, Stage, Step
from .grain import CASTING, FILLING, GERMINATION, INTAKE, MOISTURE, QUICK, STEEPING, STORE, STORE_ROUND
from .malt import ANALYSIS, BOX, CLEANING, DRUM, EMERGENCY, FLOOR, KILN, LIFTING, READINESS, SHIFT, STEEP_CLEANING

JOBS: dict[str, Job] = {
    job.id: job
    for job in (
        INTAKE, STORE, STORE_ROUND, GERMINATION, FILLING, STEEPING, MOISTURE, QUICK, CASTING, FLOOR, DRUM, BOX,
        READINESS, KILN,
        CLEANING, STEEP_CLEANING, ANALYSIS, SHIFT, LIFTING, EMERGENCY,
    )
}  # fmt: skip


class Procedure(NamedTuple):
    """A house’s own number for the procedure of a job, and the office that may assess it; blank where it said none."""

    number: str = ""
    assesses: str = ""


def of_house(job_id: str) -> Procedure:
    """What this house’s file says of a job; the book itself says nothing.

    ``calculators.rules.house.PROCEDURES`` is taken where it is there: by id of the job, ``number`` and ``assesses``;
    else the paper that the house has made of the job’s page.
    """
    said: dict[str, dict[str, str]] = getattr(house, "PROCEDURES", {})
    if job_id in said:
        return Procedure(**said[job_id])
    paper = here.paper_of(JOBS[job_id].page) or {}
    version = f"version {paper['version']}" if paper.get("version") else ""
    number = ", ".join(part for part in (str(paper.get("number", "")), version) if part)
    return Procedure(number, str(paper.get("assesses", "")))


__all__ = ["JOBS", "NO_LEAVE", "STAGES", "Job", "Procedure", "Stage", "Step", "of_house"]

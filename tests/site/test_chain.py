"""Each procedure links what goes with it: the job beside it, its hazards, sheets, record sheet and session."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

DOCS = Path("docs")
JOBS = sorted((DOCS / "procedures").glob("*.md"))
NO_SHEET = {"between-batches", "hand-over"}  # judged by eye and nose; said and looked at
SESSIONS = {path.name: path.read_text("utf-8") for path in (DOCS / "training").glob("session-*.md")}


def links(job: Path) -> set[str]:
    return set(re.findall(r"\]\(([^)#\s]+)", job.read_text("utf-8")))


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_a_job_links_another_job_its_hazards_its_sheets_and_its_record(job: Path):
    found = links(job)
    assert [link for link in found if (job.parent / link).resolve() in [j.resolve() for j in JOBS] and link != job.name]
    assert '--8<-- "hazards/' in job.read_text("utf-8")
    assert job.stem in NO_SHEET or [link for link in found if link.startswith("../calculators/")]
    record = job.read_text("utf-8").split("## Record\n")[1].split("\n## ")[0]
    assert re.search(r"\]\(\.\./(?:reference/)?records/[a-z-]+\.md\)", record)


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_a_session_teaches_it(job: Path):
    taught = [name for name, text in SESSIONS.items() if f"(../procedures/{job.name}" in text]
    assert {f"../training/{name}" for name in taught} & links(job)

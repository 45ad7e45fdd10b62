"""What a record of competence is made of: jobs, and the steps of each with the standard to reach."""

from __future__ import annotations

from typing import NamedTuple


class Step(NamedTuple):
    """One thing that somebody shows, and the standard of it, as it is said of a learner.

    ``times`` is on how many batches it is seen done alone. ``hazard`` is a step in which the learner says what can
    hurt. ``later`` is one that no session has time for: it is seen at the work.
    """

    id: str
    says: str
    times: int = 1
    hazard: bool = False
    later: bool = False


class Job(NamedTuple):
    """One job that is signed off: its page, its session, what is seen at each stage, and its steps.

    ``often`` says on how many batches and of which kind; ``months`` after how long it is due again; ``sooner`` what
    makes it due before that. A figure of the trade stands as ``[[limit:id edge]]``.
    """

    id: str
    title: str
    page: str
    session: str
    shown: str
    helped: str
    alone: str
    often: str
    steps: tuple[Step, ...]
    months: int = 24
    sooner: str = ""


class Stage(NamedTuple):
    """How far a step was seen, in the order in which one comes after another."""

    id: str
    label: str
    means: str


STAGES = (
    Stage("shown", "Shown", "The trainer did it and said why. The learner watched and asked."),
    Stage("helped", "With help", "The learner did it. The trainer spoke or lent a hand."),
    Stage("alone", "Alone", "The learner did it without being told anything, and the trainer stood by."),
    Stage("not-yet", "Not yet", "The standard was not reached. It is no blame: what was missing is written."),
)

NO_LEAVE = "It says what was seen. It gives nobody leave to work alone or to go in anywhere."
"""What stands on every record, sheet and table; the employer, local law and the site’s permits decide that."""

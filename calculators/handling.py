"""What the sheets on lifting and shovelling share: who does the work, and whom no figure fits."""

from __future__ import annotations

from .declare import Choice, Note, Option

who = Choice(
    "who",
    "Who lifts, for the British filter",
    (Option("woman", "A woman, or anyone: the lower weights"), Option("man", "A man: the higher weights")),
    default="woman",
)
PEOPLE = (
    Option("not-asked", "Nobody has asked yet"),
    Option("none", "Asked: nobody"),
    Option("yes", "Yes, or somebody would rather not say"),
)
person = Choice(
    "person",
    "Pregnant or a new mother, under 18, back, heart or hernia trouble?",
    PEOPLE,
    "Anyone who would lift. Ask in private.",
    default="not-asked",
    in_view=True,
)

ASK_FIRST = Note(
    "caution",
    "Nobody lifts or shovels on the strength of a sum. Ask first, in private: is anyone pregnant or a new mother, "
    "under 18, or with back, heart or hernia trouble? They could be hurt by work that others bear. The site’s own "
    "assessment and a competent person decide.",
)

NOT_FOR_THEM = Note(
    "warning",
    "These figures are not for that person and could lead to lasting harm. Stop, and ask occupational health or the "
    "site’s competent person for an assessment of their own.",
)


def about(answered: str) -> list[Note]:
    """The note that goes with the answer to ``person``."""
    return {"yes": [NOT_FOR_THEM], "not-asked": [ASK_FIRST]}.get(answered, [])

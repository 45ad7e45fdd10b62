"""What is due stands in front, and a prompt says what comes next."""

from __future__ import annotations

from calculators.practice.play import play


def front(level: str, moves: str, number: int = 4242) -> list[str]:
    played = play(number, level, "none", moves)
    assert played.left_out == ()
    return [offer.code for offer in played.scene.offers if offer.big]


def prompt(moves: str, level: str = "1a") -> str:
    return play(4242, level, "none", moves).scene.prompt


def test_at_the_planned_hour_the_basket_and_the_drain_stand_in_front_and_then_the_suction() -> None:
    assert front("2a", "") == ["bd", "nx"]
    assert front("2a", "nx") == ["bd", "dr"]
    assert front("2a", "nx-bd") == ["dr", "bd"]
    assert front("2a", "nx-bd-dr") == ["sl", "pr"]
    assert front("2a", "nx-bd-dr-sl") == ["pr", "nx"]
    assert front("2a", "nx-bd-dr-sl-nx") == ["we", "pr"]


def test_with_prompts_what_is_not_written_stands_in_front_until_it_is() -> None:
    assert front("1a", "bd") == ["wr", "nx"]
    assert front("1a", "nx") == ["bd", "dr"]
    assert front("1a", "nx-bd") == ["dr", "wr"]
    assert front("1a", "nx-bd-dr") == ["sl", "wr"]
    assert front("1a", "nx-bd-dr-sl") == ["wr", "pr"]
    assert front("1a", "nx-bd-dr-sl-wr") == ["pr", "nx"]


def test_the_prompt_goes_on_once_the_basket_is_weighed() -> None:
    assert prompt("") == "Weigh the basket before you drain: 30 to 35 %."
    assert prompt("bd").startswith("The basket says 32.7 %, within 30 to 35 %: drain by Day 1, 14:10,")
    assert "drain now, and start the suction" in prompt("nx-bd")
    assert "start the suction now" in prompt("nx-bd-dr")
    assert "Before the last of the three waters, count: 70 % chitted" in prompt("nx-bd-dr-sl")
    assert prompt("nx-wa120-bd").endswith("drain now, and start the suction.")

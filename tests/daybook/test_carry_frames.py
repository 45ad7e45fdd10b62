"""Lines as frames for a camera: complete or nothing, in any order, with losses, repeats, strangers and ill will."""

from __future__ import annotations

import json
import random
import zlib
from hashlib import sha256

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.daybook.carry import base45
from calculators.daybook.carry.frames import (
    BYTES,
    MARK,
    MOST_CHARACTERS,
    MOST_FRAMES,
    Broken,
    Frame,
    TooLong,
    frame_of,
    frames_of,
    text_of,
)
from calculators.drawing.code import draw_frame
from tests.daybook.book import START, ask, line

# RFC 9285, sections 4.3 and 4.4.
RFC_9285 = [(b"AB", "BB8"), (b"Hello!!", "%69 VD92EX0"), (b"base-45", "UJCLQE7W581"), (b"ietf!", "QED8WEX0")]


@pytest.mark.parametrize(("data", "text"), RFC_9285, ids=[text for _, text in RFC_9285])
def test_base_45_is_that_of_the_standard(data: bytes, text: str) -> None:
    assert base45.encode(data) == text
    assert base45.decode(text) == data


def test_base_45_refuses_what_the_standard_refuses() -> None:
    assert base45.decode("FGW") == b"\xff\xff"  # RFC 9285, section 6: the last that is allowed
    for text in ("GGW", ":::", "::", "A", "ab0", "BB8é"):
        with pytest.raises(ValueError):
            base45.decode(text)


@given(st.binary(max_size=400))
def test_bytes_come_back(data: bytes) -> None:
    assert base45.decode(base45.encode(data)) == data


def gathered(texts: list[str]) -> str:
    """What a taker has after these codes: the whole text, or a refusal."""
    first = next((frame for text in texts if (frame := frame_of(text))), None)
    frames = {one.number: one for text in texts if first and (one := frame_of(text)) and one.transfer == first.transfer}
    return text_of(frames)


@settings(max_examples=400, deadline=None)
@given(st.text(min_size=0, max_size=3000), st.randoms(use_true_random=False))
def test_complete_or_nothing_whatever_is_lost_repeated_or_mixed(text: str, chance: random.Random) -> None:
    frames = frames_of(text + chance.randbytes(1500).hex())  # what does not pack small, so that there are several
    text = text_of({one.number: one for one in map(frame_of, frames) if one})
    stranger = frames_of(text + "!")
    seen = [frame for frame in frames if chance.random() > 0.3]
    seen += [chance.choice(frames) for _ in range(chance.randrange(6))]
    chance.shuffle(seen)
    mixed = seen[:1] + seen[1:] + [chance.choice(stranger) for _ in range(chance.randrange(3) if seen else 0)]
    if set(seen) == set(frames):
        assert gathered(mixed) == text
    else:
        with pytest.raises(Broken):
            gathered(mixed)


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_damaged_frame_is_none(data: st.DataObject) -> None:
    frame = frames_of("a line of the book " * 40)[0]
    place = data.draw(st.integers(0, len(frame) - 1))
    other = data.draw(st.sampled_from(base45.ALPHABET))
    damaged = frame[:place] + other + frame[place + 1 :]
    assert frame_of(damaged) == (frame_of(frame) if damaged == frame else None)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "https://example.org/a",
        f"{MARK}:",
        "WIFI:T:WPA;S:x;;",
        f"{MARK}:{'0' * 16}:1:1:000000:",
        f"{MARK}:{'0' * 16}:0:1:000000:A",
        "x" * 100_000,
        "<img src=x onerror=alert(1)>",
    ],
    ids=range(8),
)
def test_other_codes_are_none_of_ours(text: str) -> None:
    assert frame_of(text) is None
    assert ask("code-seen", [], text=text)["is"] == "odd"


def made(body: bytes, *, digest: bytes | None = None) -> dict[int, Frame]:
    """Frames that somebody made by hand."""
    data = (digest or sha256(body).digest()) + body
    parts = [data[at : at + BYTES] for at in range(0, len(data), BYTES)]
    name = data[:8].hex().upper()
    return {n: Frame(name, n, len(parts), base45.encode(part)) for n, part in enumerate(parts, 1)}


def test_what_was_made_to_do_harm_is_refused() -> None:
    bomb = zlib.compress(b"0" * (MOST_CHARACTERS * 3), 9)
    for frames in (
        made(bomb),  # a few codes that would unpack to twelve million characters
        made(zlib.compress(b"lines"), digest=bytes(32)),  # another whole than was named
        made(b"no archive at all"),
        made(zlib.compress(b"lines")[:-3]),
        made(zlib.compress(b"\xff\xfe")),
    ):
        with pytest.raises(Broken):
            text_of(frames)


def test_one_changed_frame_in_a_transfer_spoils_all_of_it() -> None:
    text = random.Random(4).randbytes(2000).hex()
    frames = {one.number: one for one in map(frame_of, frames_of(text)) if one}
    assert len(frames) > 3
    frames[2] = frames[2]._replace(body=frames[3].body)
    with pytest.raises(Broken, match="not what was sent"):
        text_of(frames)


def test_too_much_for_codes_is_said() -> None:
    frames_of(random.Random(1).randbytes(BYTES * MOST_FRAMES // 2).hex())
    with pytest.raises(TooLong):
        frames_of(random.Random(1).randbytes(BYTES * MOST_FRAMES + 1).hex())


def test_a_frame_is_a_code_that_a_phone_reads() -> None:
    """ISO/IEC 18004: version 10 has 57 modules a side and holds 395 alphanumeric signs at level L (from memory)."""
    frames = frames_of(random.Random(1).randbytes(BYTES * 200).hex())
    assert max(map(len, frames)) <= 395
    assert draw_frame(max(frames, key=len)).get("viewBox") == "0 0 65 65"


def book() -> list[dict[str, object]]:
    return [
        line("start", "2026-11-24T05:30", "77", remark="<b>Gerste & Ü</b>", **START),
        line("stage-begun", "2026-11-24T06:00", "77", stage="wet", water_temp_c="14"),
        line("start", "2026-11-24T07:30", "78", **START),
        line("to-kiln", "2026-11-20T07:30", "70"),
    ]


def test_a_batch_goes_over_as_it_stands_and_comes_once() -> None:
    lines = book()
    given = ask("codes-give", lines, batch="77")
    assert [(one["id"], one["lines"]) for one in given["batches"]] == [("77", 2)]
    for text in given["frames"]:
        seen = ask("code-seen", [], text=text)
        assert (seen["is"], seen["total"]) == ("ours", len(given["frames"]))
    came = ask("codes-whole", [], frames=[*reversed(given["frames"]), *given["frames"]])
    assert came["batches"] == [{"id": "77", "lines": 2}] and not came["invented"]
    taken = ask("import", [], text=came["text"], name="the codes")
    sent = [{name: value for name, value in row.items() if name != "seq"} for row in lines[:2]]
    assert taken["new"] == sent
    again = ask("import", lines[:1], text=came["text"], name="the codes")
    assert (len(again["new"]), again["same"]) == (1, 1)
    assert ask("codes-whole", [], text=given["text"])["ids"] == [row["id"] for row in sent]


def test_the_hand_over_goes_over_with_all_that_is_at_work_and_nothing_else() -> None:
    given = ask("codes-give", book())
    assert {one["id"] for one in given["batches"]} == {"77", "78"}
    assert "fault" in ask("codes-give", [line("to-kiln", "2026-11-20T07:30", "70")])


def test_a_code_of_another_transfer_is_told_apart() -> None:
    one, two = (ask("codes-give", book(), batch=name)["frames"][0] for name in ("77", "78"))
    name = ask("code-seen", [], text=one)["transfer"]
    assert ask("code-seen", [], text=two, transfer=name)["is"] == "other"


def test_invented_lines_say_so() -> None:
    given = ask("codes-give", book(), batch="77", demo=True)
    assert ask("codes-whole", [], frames=given["frames"])["invented"] is True


def test_frames_short_of_one_bring_nothing() -> None:
    frames = frames_of(json.dumps({"kind": "x", "entries": []}) + random.Random(2).randbytes(900).hex())
    reply = ask("codes-whole", [], frames=frames[1:])
    assert "text" not in reply and "Nothing was taken" in reply["fault"]


@pytest.mark.parametrize(
    "text", ["", "[]", "{}", '{"kind": 1, "entries": 5}', '{"kind": "another", "entries": []}', "[" * 5000]
)
def test_what_holds_no_lines_is_refused(text: str) -> None:
    assert "Nothing was taken" in ask("codes-whole", [], text=text)["fault"]
    assert "Nothing was taken" in ask("codes-whole", [], frames=frames_of(text))["fault"]

"""The editor that reads the handbook finds what it is there to find."""

from __future__ import annotations

import pytest

from site_src.prose import LONGEST, MOST_WORDS, faults, length, sentences, words_not_used

PAGE = """---
title: A page
---
# A heading with very many words that is not counted at all

Drain the steep. Weigh the [basket](sample-basket.md) at 14.5 C, then write it down!

1. Open the valve.
2. Wait until it runs.

| a | table of words |
| --- | --- |

```sheet
moisture-target barley_kg=5000
```
"""


def test_headings_tables_and_blocks_are_no_sentences():
    assert sentences(PAGE) == [
        "Drain the steep.",
        "Weigh the basket at 14.5 C, then write it down!",
        "Open the valve.",
        "Wait until it runs.",
    ]
    assert length("Weigh the basket at 14.5 C, then write it down!") == 10


@pytest.mark.parametrize("words", [MOST_WORDS - 1, MOST_WORDS])
def test_a_procedure_stays_under_the_average_from_both_sides(words: int):
    page = "It " + "goes " * (words - 2) + "on."
    found = list(faults("procedures/a.md", page, {}))
    assert len(found) == (words >= MOST_WORDS)
    assert list(faults("reference/a.md", page, {})) == []


@pytest.mark.parametrize("words", [LONGEST, LONGEST + 1])
def test_no_sentence_is_longer_than_the_longest(words: int):
    page = "It " + "goes " * (words - 2) + "on."
    assert len(list(faults("reference/a.md", page, {}))) == (words > LONGEST)


@pytest.mark.parametrize("word", words_not_used())
def test_each_word_on_the_list_is_found_and_only_as_a_word(word: str):
    unused = words_not_used()
    assert any(f"“{word}”" in fault for fault in faults("a.md", f"You would write {word} here.", unused))
    assert not any(f"“{word}”" in fault for fault in faults("a.md", f"You would write x{word}x here.", unused))

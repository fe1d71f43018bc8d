"""What the shop says besides: taken in where it is clear, refused where it means something else already."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchbot.errors import KnowledgeError
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary


def meant(vocabulary: Vocabulary, *words: str) -> tuple[str, ...]:
    return next((p.means for p in vocabulary.component_phrases if frozenset(p.words) == frozenset(words)), ())


def test_a_word_of_the_shop_means_its_component(folder: Path) -> None:
    plain = load_vocabulary(folder)
    shop = load_vocabulary(folder, [("caliper bracket bolt", "The Hulk-bolt")])
    assert meant(plain, "hulk", "bolt") == ()
    assert meant(shop, "hulk", "bolt") == ("caliper bracket bolt",)
    assert shop.digest == plain.digest


def test_the_term_may_be_a_clear_synonym(folder: Path) -> None:
    shop = load_vocabulary(folder, [("carrier bolt", "gorilla")])
    assert meant(shop, "gorilla") == ("caliper bracket bolt",)


def test_a_word_that_means_the_same_already_changes_nothing(folder: Path) -> None:
    shop = load_vocabulary(folder, [("slide pin bolt", "guide pin bolt")])
    assert [p for p in shop.component_phrases if set(p.words) == {"guide", "pin", "bolt"}] == [
        p for p in load_vocabulary(folder).component_phrases if set(p.words) == {"guide", "pin", "bolt"}
    ]


@pytest.mark.parametrize(
    ("term", "said", "wrong", "mend"),
    [
        ("flux bolt", "gorilla", "'flux bolt' is no component", "Use the name"),
        ("caliper bolt", "gorilla", "'caliper bolt' is no component", "just one"),
        ("brake drum", "carrier bolt", "means caliper bracket bolt already", "can only mean brake drum"),
        ("slide pin bolt", "caliper bolt", "means caliper bracket bolt or slide pin bolt already", "can only mean"),
        ("brake drum", "the greasy", "holds no word of its own", "Write what the shop says"),
        ("brake drum", "!", "holds no word of its own", "Write what the shop says"),
    ],
)
def test_a_word_that_is_not_clear_is_refused(folder: Path, term: str, said: str, wrong: str, mend: str) -> None:
    with pytest.raises(KnowledgeError) as refused:
        load_vocabulary(folder, [("brake drum", "can"), (term, said)])
    (fault,) = refused.value.faults
    assert fault.where == "row 2"
    assert wrong in fault.wrong
    assert mend in fault.mend

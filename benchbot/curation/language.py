"""The vocabulary as the shop has it, the shipped knowledge with the shop's own words, and the procedures beside it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from benchbot.places import knowledge_folder
from benchbot.procedures.asked import learned_text
from benchbot.procedures.loading import load_procedures
from benchbot.vocabulary.digest import digest_of
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary


def shop_vocabulary(shop_words: Iterable[tuple[str, str]]) -> Vocabulary:
    """KnowledgeError when a knowledge file is wrong, or a word of the shop means something else already."""
    return _loaded(digest_of(knowledge_folder()), tuple(shop_words))[0]


def packed_knowledge(shop_words: Iterable[tuple[str, str]]) -> str:
    """Vocabulary and procedures as the JSON that the record keeps of a version of the book.

    KnowledgeError as `shop_vocabulary`, or when a procedure file is wrong.
    """
    vocabulary, packed = _loaded(digest_of(knowledge_folder()), tuple(shop_words))
    if not packed:
        procedures = load_procedures(knowledge_folder(), vocabulary)
        packed.append(_json({"vocabulary": vocabulary.to_plain(), "procedures": procedures.to_plain()}))
    return packed[0]


def unpacked_knowledge(packed: str) -> tuple[Vocabulary, str, str]:
    """The vocabulary, its JSON, and that of the procedures: "" in what was kept before there were any."""
    plain = json.loads(packed)
    if "vocabulary" not in plain:
        return Vocabulary.from_plain(plain), packed, ""
    said = plain["vocabulary"]
    return Vocabulary.from_plain(said), _json(said), _json(plain["procedures"])


def learned_likeness() -> str:
    """What was learned of how people ask for the steps, as text. KnowledgeError when it is not of those questions."""
    return learned_text(knowledge_folder())


def _json(plain: dict[str, Any]) -> str:
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))


@lru_cache(maxsize=4)
def _loaded(_digest: str, shop_words: tuple[tuple[str, str], ...]) -> tuple[Vocabulary, list[str]]:
    # Loading takes a second, packing half of one, and an import that publishes needs the vocabulary twice.
    return load_vocabulary(knowledge_folder(), shop_words), []

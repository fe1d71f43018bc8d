"""The vocabulary as the shop has it: the shipped knowledge with the shop's own words."""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import lru_cache

from benchbot.places import knowledge_folder
from benchbot.vocabulary.digest import digest_of
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary


def shop_vocabulary(shop_words: Iterable[tuple[str, str]]) -> Vocabulary:
    """KnowledgeError when a knowledge file is wrong, or a word of the shop means something else already."""
    return _loaded(digest_of(knowledge_folder()), tuple(shop_words))[0]


def packed_vocabulary(shop_words: Iterable[tuple[str, str]]) -> str:
    """The same as the JSON that a book and the record keep of it."""
    vocabulary, packed = _loaded(digest_of(knowledge_folder()), tuple(shop_words))
    if not packed:
        packed.append(json.dumps(vocabulary.to_plain(), ensure_ascii=False, separators=(",", ":")))
    return packed[0]


@lru_cache(maxsize=4)
def _loaded(_digest: str, shop_words: tuple[tuple[str, str], ...]) -> tuple[Vocabulary, list[str]]:
    # Loading takes a second, packing half of one, and an import that publishes needs the vocabulary twice.
    return load_vocabulary(knowledge_folder(), shop_words), []

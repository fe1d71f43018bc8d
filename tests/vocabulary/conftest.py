"""The shipped vocabulary, a plain look-up of phrases in it, and a small knowledge folder to break."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from pathlib import Path

import pytest

from benchbot.places import knowledge_folder
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Phrase, Vocabulary

Meaning = Callable[[str], Phrase]

SMALL = {
    "components/brakes.yaml": """
group: brakes
axles: both
components:
  - name: caliper bracket bolt
    fastens: [caliper bracket]
    cautions: [dust]
    said: ["(brake) bracket/carrier bolt"]
  - name: caliper bracket
    kind: part
    properties: [note]
  - name: slide pin bolt
    said: ["guide pin bolt"]
  - name: brake drum
    kind: part
    properties: [maximum diameter, note]
    said: [drum]
""",
    "words.yaml": """
words:
  - {word: bracket, short: [brkt], spanish: [soporte], heard: [racket]}
  - {word: bolt, heard: [bowl]}
  - {word: torque, short: [tq]}
""",
    "shorthand.yaml": """
shorthand:
  - {short: spb, stands for: slide pin bolt}
""",
    "doubtful.yaml": """
doubtful:
  - said: [caliper bolt]
    could be: [caliper bracket bolt, slide pin bolt]
    ask: Which bolt?
    always: "yes"
""",
    "properties.yaml": """
clear:
  - name: torque
    dimension: torque
    said: [how tight]
  - name: maximum diameter
    dimension: length
    said: [max diameter]
vague:
  - said: [limit]
    could be: [maximum diameter]
    always: "no"
""",
    "positions.yaml": """
positions:
  - {said: [front, frt], tokens: [front]}
  - {said: [rear], tokens: [rear]}
""",
    "qualifiers.yaml": """
qualifiers:
  - {said: [4x4, 4wd], key: drive, value: 4WD}
""",
    "lists.yaml": """
lists:
  joining: [the, of, to]
  function: [i, need]
  small_talk: [thanks]
  out_of_scope: [price]
  identifier_before: [ro]
  unit_after: [miles]
  counted: [bolts]
  measured: [reading]
  confirm: [right]
  negation: [not]
  same: [same]
  next_vehicle: [next car]
  joiners: [and]
  alternatives: [or]
""",
    "cautions.yaml": """
cautions:
  - {name: dust, text: No dry brushing., text_es: No cepille en seco.}
  - {name: stands, text: Set stands., text_es: Ponga torres., groups: [brakes], first: "yes"}
""",
    "everyday.txt": """
[function]
oh
[chatter]
greasy
""",
}


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return load_vocabulary(knowledge_folder())


@pytest.fixture(scope="session")
def meaning(vocabulary: Vocabulary) -> Meaning:
    """All that words can mean: each typed word in its canonical forms, the words of a phrase in any order.

    Misheard words are looked at only where the words as typed mean nothing.
    """
    phrases = {frozenset(phrase.words): phrase for phrase in vocabulary.component_phrases}
    known = {word for phrase in vocabulary.component_phrases for word in phrase.words}
    passed_over = {*vocabulary.lists["joining"], *vocabulary.lists["function"]}

    def forms(word: str, heard: bool) -> list[str]:
        found = []
        for single in (word, word.removesuffix("s"), word.removesuffix("es")):
            found += [single] if single in known else []
            found += [f.word for f in vocabulary.words.get(single, ()) if heard or f.how != "heard"]
        return list(dict.fromkeys(found))

    def of(text: str) -> Phrase:
        for heard in (False, True):
            words = list(name_words(text))
            choices: list[list[str]] = []
            at = 0
            while at < len(words):
                size = 1
                found: list[str] = []
                for longer in range(min(5, len(words) - at), 1, -1):
                    found = forms(" ".join(words[at : at + longer]), heard)
                    if found:
                        size = longer
                        break
                found = found or forms(words[at], heard)
                if found or words[at] not in passed_over:
                    choices.append(found or [words[at]])
                at += size
            meant = [phrases[frozenset(c)] for c in product(*choices) if frozenset(c) in phrases]
            if meant:
                means = tuple(dict.fromkeys(name for phrase in meant for name in phrase.means))
                return Phrase(meant[0].words, means, any(phrase.always for phrase in meant), meant[0].ask)
        raise LookupError(f"{text!r} means nothing")

    return of


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small knowledge folder without a fault."""
    for name, text in SMALL.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text.lstrip("\n"), encoding="utf-8")
    return tmp_path

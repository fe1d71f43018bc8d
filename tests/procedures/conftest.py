"""The shipped procedures, the finder made of them, and a small knowledge folder with one procedure to break."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from benchbot.places import knowledge_folder
from benchbot.procedures.asked import learned_text
from benchbot.procedures.finding import Finder
from benchbot.procedures.likeness import Weights
from benchbot.procedures.loading import load_procedures
from benchbot.procedures.steps import Procedures
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary

ACTS = """\
acts:
  clean: [clean, scrape]
  tighten: [tighten]
things:
  hub: [hub]
topics:
  bed-in: [bed in]
passing: [ok]
"""
COMMON = """\
steps:
  - id: clean-hub
    title: Clean the hub
    do: Bare metal.
    because: Rust is runout.
    asked_as: [clean the hub, hub is rusty]
"""
FRONT = """\
id: front
title: Front brake
axle: front
applies_when: Always.
tools: [wrench]
consumables: [cloths]
new_parts_always: [pads]
cautions: [brake dust]
steps:
  - {shared: clean-hub}
  - id: bolt-it
    title: Bolt it up
    do: By hand first.
    because: A crooked thread tears.
    about: [caliper bracket bolt]
    act: [tighten]
    asked_as: [tighten the bracket]
    cautions: [one-time fastener]
    checks:
      - look: The bolt.
        good: It turns by hand.
        bad: It binds.
        then: Out again.
    stop:
      when: It goes easy.
      do: New bolt.
    judge:
      rule: A bolt that yielded is scrap.
      decides: lead tech
    tighten:
      - component: caliper bracket bolt
        position: [axle]
    measure:
      - component: brake rotor
        property: minimum thickness
        where: Eight points.
"""


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return load_vocabulary(knowledge_folder())


@pytest.fixture(scope="session")
def procedures(vocabulary: Vocabulary) -> Procedures:
    return load_procedures(knowledge_folder(), vocabulary)


@pytest.fixture(scope="session")
def finder(procedures: Procedures, vocabulary: Vocabulary) -> Finder:
    return Finder(procedures, vocabulary, Weights.from_text(learned_text(knowledge_folder())))


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A knowledge folder that holds three procedure files without a fault."""
    inside = tmp_path / "procedures"
    inside.mkdir()
    for name, text in (("acts.yaml", ACTS), ("common.yaml", COMMON), ("front.yaml", FRONT)):
        (inside / name).write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def whole(tmp_path: Path) -> Path:
    """A copy of the whole shipped knowledge folder."""
    return Path(shutil.copytree(knowledge_folder(), tmp_path / "knowledge"))

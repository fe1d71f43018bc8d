"""Reads everyday.txt: the words that mean nothing to a spec, one a line, under [function] and [chatter]."""

from __future__ import annotations

from pathlib import Path

from benchbot.errors import Fault

_SECTIONS = ("function", "chatter")


def read_everyday(path: Path) -> tuple[dict[str, list[str]], list[Fault]]:
    """The words of each section, and every fault with its line."""
    sections: dict[str, list[str]] = {name: [] for name in _SECTIONS}
    faults: list[Fault] = []
    if not path.is_file():
        return sections, [Fault(path.name, "", "is missing", "Put it back from the shipped knowledge folder.")]
    seen: dict[str, int] = {}
    section: str | None = None
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        word = line.strip()
        where = f"{path.name} line {number}"
        if not word or word.startswith("#"):
            continue
        if word.startswith("["):
            section = word.strip("[]")
            if section not in sections:
                faults.append(Fault(where, "", f"{word} is no section", "Use [function] or [chatter]."))
                section = None
            continue
        if section is None:
            faults.append(Fault(where, "", f"{word!r} stands in no section", "Put it under [function] or [chatter]."))
            continue
        if word in seen:
            faults.append(Fault(where, "", f"{word!r} stands on line {seen[word]} too", "Delete one of them."))
            continue
        seen[word] = number
        sections[section].append(word)
    return sections, faults

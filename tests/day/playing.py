"""Plays the steps of a day on a stage, and kills its processes between them and inside them where it is told to."""

from __future__ import annotations

import csv
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from moved import POINTS
from script import DAY, PEOPLE, Comes, FillsTable, Hears, Presses, Runs, Says, SendsPage, Step
from stage import KILLED, Stage

# the smallest of pictures, by W3C's PNG specification: signature, IHDR, IDAT, IEND
PAGE = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010802000000907753de"
    "0000000c49444154789c63f8ffff3f0005fe02fe0def46b80000000049454e44ae426082"
)


@dataclass(frozen=True, slots=True)
class Kills:
    """One behind every so many steps, one inside every so many; 0 for none. first: where to begin.

    publishing: the points inside the two publishings, in the chat and on the command line.
    """

    between: int = 0
    inside: int = 0
    first: int = 0
    publishing: tuple[str, str] = ("", "")

    def after(self, step: int) -> bool:
        return self.between > 0 and (step + self.first) % self.between == 0

    def point(self, number: int, step: Step) -> str:
        """Where the process dies that passes there in this step, or ""."""
        if isinstance(step, Presses) and step.label == "Yes, publish" and self.publishing[0]:
            return self.publishing[0]
        if isinstance(step, Runs) and step.words[:2] == ("specs", "publish") and self.publishing[1]:
            return self.publishing[1]
        if not self.inside or (number + self.first) % self.inside != self.inside // 2:
            return ""
        names = tuple(POINTS)
        return names[((number + self.first) // self.inside) % len(names)]

    @property
    def any(self) -> bool:
        return bool(self.between or self.inside)


def play(stage: Stage, kills: Kills, steps: tuple[Step, ...] = DAY) -> None:
    """AssertionError with the step that shows something else."""
    for one in PEOPLE:
        stage.join(one)
    page = stage.folder / "page.png"
    page.write_bytes(PAGE)
    for number, step in enumerate(steps):
        point = kills.point(number, step)
        stage.die_at(point)
        try:
            _do(stage, step, page, kills.any)
        except AssertionError as error:
            raise AssertionError(f"step {number}, {step}\nkilled so far: {stage.deaths}\n{error}") from error
        finally:
            stage.die_at("")
        if kills.after(number):
            stage.kill(getattr(step, "who", ""))
            stage.deaths.append("between")
    stage.settle()


def _do(stage: Stage, step: Step, page: Path, killed: bool) -> None:
    if isinstance(step, Comes):
        stage.comes(step.moment)
        stage.settle()
        if stage.revived():
            stage.deaths.append(stage.point)
    elif isinstance(step, FillsTable):
        fill_table(stage.folder / step.file, step)
    elif isinstance(step, Runs):
        _run(stage, step)
    elif isinstance(step, Hears):
        _hear(stage, step, killed)
    else:
        _say(stage, step, page)


def _say(stage: Stage, step: Says | Presses | SendsPage, page: Path) -> None:
    if isinstance(step, Says):
        stage.say(step.who, step.text)
    elif isinstance(step, Presses):
        stage.press(step.who, step.label, step.on)
    else:
        stage.send_page(step.who, page)
    if stage.revived():
        stage.deaths.append(stage.point)
    texts = stage.messages(step.who)[-3:]
    missing = [part for part in step.shows if not any(part in text for text in texts)]
    assert not missing, f"does not show {missing}:\n" + "\n---\n".join(texts)


def _run(stage: Stage, step: Runs) -> None:
    words = [word.format(folder=stage.folder) for word in step.words]
    done = stage.run(*words)
    if done.returncode == KILLED:
        # Whoever typed it types it again; it may say then that it was done.
        stage.deaths.append(stage.point)
        stage.run(*words)
    else:
        told = done.stdout + done.stderr
        missing = [part for part in step.shows if part not in told]
        assert (done.returncode, missing) == (step.code, []), f"{done.returncode}: {told}"
    stage.settle()
    if stage.revived():
        stage.deaths.append(stage.point)


def _hear(stage: Stage, step: Hears, killed: bool) -> None:
    stage.settle()
    found = [text for text in stage.messages(step.who) if step.sign in text]
    if killed:
        # What was out when the process died, and not noted, comes once more.
        found = list(dict.fromkeys(found))
    wanted = list(step.each)
    for text in list(found):
        for each in wanted:
            if all(part in text for part in each):
                wanted.remove(each)
                found.remove(text)
                break
    assert not found and not wanted, f"came unexpected: {found}, did not come: {wanted}"


def fill_table(file: Path, step: FillsTable) -> None:
    """As somebody does it in a spreadsheet: cells by the part and its position, other rows deleted."""
    with file.open(encoding="utf-8-sig", newline="") as source:
        reader = csv.DictReader(source)
        columns, rows = list(reader.fieldnames or ()), list(reader)
    assert len(rows) == step.rows, Counter(row["component"] for row in rows)
    by_part = dict(step.cells)
    filled = [row | by_part[row["component"]] for row in rows if row["component"] in by_part]
    assert len(filled) == len(by_part), rows
    with file.open("w", encoding="utf-8", newline="") as target:
        writer = csv.DictWriter(target, columns)
        writer.writeheader()
        writer.writerows(filled)

"""Makes an invented fleet and a set of questions with their right outcomes, from a seed.

    python make_questions.py --seed 7 --vehicles 40 --questions 2000 --out DIR

writes DIR/fleet.csv and DIR/questions.jsonl. The outcomes come from the slots that were rendered, never from the text.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

from cases import Cases, Said
from chats import Chats
from invented_fleet import SpecRow, invent, write_fleet
from oracle import Ask, Oracle, Verdict
from wording import Wording

Question = dict[str, Any]
MOST_DRAWS = 400


class Maker:
    """Draws questions by weight, settles each by the oracle, and drops what the rules leave open."""

    def __init__(self, seed: int, vehicles: int, slipped: float = 0.2) -> None:
        self.rng = Random(seed)
        fleet, self.rows, names = invent(self.rng, vehicles)
        self.oracle = Oracle(self.rows)
        self.wording = Wording(self.rng, slipped)
        self.cases = Cases(self.rng, fleet, self.rows, names, self.wording)
        self.chats = Chats(self.rng, self.cases)
        self._kinds = self._weighted()

    def questions(self, count: int) -> Iterator[Question]:
        """`count` questions, no two alike."""
        seen: set[tuple[str, ...]] = set()
        barren = 0
        while len(seen) < count:
            question = self._draw()
            key = (*question.get("after", ()), question["q"]) if question else ()
            if question is None or key in seen:
                barren += 1
                if barren > MOST_DRAWS * count:
                    raise SystemExit(
                        f"only {len(seen)} different questions found for {len(self.rows)} rows; ask for fewer"
                    )
                continue
            seen.add(key)
            yield question

    def _weighted(self) -> list[tuple[int, str, Callable[[], Said | None]]]:
        c = self.cases
        return [
            (30, "", lambda: c.plain(self._row())),
            (8, "any slot, held or not", c.anywhere),
            (4, "draft", c.draft),
            (7, "no year", lambda: c.plain(self._row(), year=False)),
            (7, "no axle", lambda: c.plain(self._row(), axle=False)),
            (7, "no qualifier", lambda: c.plain(self._row(), qualifier=False)),
            (2, "no year and no axle", lambda: c.plain(self._row(), year=False, axle=False)),
            (3, "", lambda: c.requalified(self._row(), "partial")),
            (6, "", lambda: c.requalified(self._row(), "foreign")),
            (4, "", lambda: c.requalified(self._row(), "extra")),
            (5, "", c.vague),
            (5, "", c.doubtful),
            (6, "", lambda: c.wrong_year(self._row())),
            (4, "", lambda: c.unknown_part(self._row())),
            (3, "", lambda: c.unknown_vehicle(self._row())),
            (3, "", lambda: self._several("make")),
            (2, "", lambda: self._several("series")),
            (3, "", lambda: self._several("sibling")),
            (4, "", c.two_properties),
            (4, "", c.both_axles),
            (3, "", lambda: c.two_parts(self._row())),
        ]

    def _row(self) -> SpecRow:
        return self.rng.choice(self.cases.checked)

    def _several(self, kind: str) -> Said | None:
        """A question that several models could be meant by; few rows belong to such models, so many are tried."""
        drawn = (self.cases.several_models(self._row(), kind) for _ in range(80))
        return next((said for said in drawn if said), None)

    def _draw(self) -> Question | None:
        lot = self.rng.random()
        if lot < 0.06:
            return self._written((), self.wording.chatter(), Verdict("other", (), ()), "")
        if lot < 0.07:
            wanted, thing = self.cases.thing(self._row())
            return self._settled((), self.wording.noise(thing), Ask((), None, (), (wanted,)), "no vehicle")
        if lot < 0.09:
            return self._two_vehicles()
        if lot < 0.24:
            chat = self.chats.draw()
            return self._settled(chat.after, chat.text, chat.ask, chat.why) if chat else None
        _, why, kind = self.rng.choices(self._kinds, [weight for weight, _, _ in self._kinds])[0]
        said = kind()
        if said is None:
            return None
        return self._settled((), self.wording.joined(said.vehicle, said.thing), said.ask, said.why or why)

    def _two_vehicles(self) -> Question | None:
        """Two vehicles in one message, the same thing of both: never an answer."""
        one, other = self.cases.plain(self._row()), self.cases.vehicle(self._row())
        if one.ask.models == other.ask.models:
            return None
        both = self.oracle.verdict(one.ask), self.oracle.verdict(replace(other.ask, wanted=one.ask.wanted))
        if both[0] is None or both[1] is None or {verdict.expect for verdict in both if verdict} != {"answer"}:
            return None
        text = f"{one.vehicle} {self.rng.choice(('and', 'or', '&'))} {other.vehicle} {one.thing}"
        verdict = Verdict("choose", (*both[0].ids, *both[1].ids), ())
        return self._written((), self.wording.noise(text), verdict, "two vehicles")

    def _settled(self, after: tuple[str, ...], text: str, ask: Ask, why: str) -> Question | None:
        verdict = self.oracle.verdict(ask)
        if verdict and verdict.expect == "answer" and why.startswith("no "):
            why += ", none needed"
        return self._written(after, text, verdict, why) if verdict else None

    def _written(self, after: tuple[str, ...], text: str, verdict: Verdict, why: str) -> Question:
        question: Question = {
            "q": text,
            "expect": verdict.expect,
            "ids": verdict.ids,
            "also": verdict.also,
            "note": why,
        }
        return {**question, "after": after} if after else question


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--vehicles", type=int, default=40)
    parser.add_argument("--questions", type=int, default=600)
    parser.add_argument("--slipped", type=float, default=0.2, help="how often a thing's words hold a slip, 0 to 1")
    parser.add_argument("--out", type=Path, required=True)
    told = parser.parse_args()
    maker = Maker(told.seed, told.vehicles, told.slipped)
    told.out.mkdir(parents=True, exist_ok=True)
    write_fleet(maker.rows, told.out / "fleet.csv")
    with (told.out / "questions.jsonl").open("w", encoding="utf-8") as file:
        for question in maker.questions(told.questions):
            file.write(json.dumps(question, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()

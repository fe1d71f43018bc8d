"""One area of one branch of a demo vehicle: which of its figures the book holds, each drawn from its own seed."""

from __future__ import annotations

from random import Random

from figures import BLEEDER_HEADS, HEADS, JOINTS, SIZES, Joint
from fleet import Branch, Generation
from writing import in_second_unit, torque

SEED = "benchbot demo 1"
Row = dict[str, str]
_ASKED_DAILY = {
    "caliper bracket bolt", "caliper slide pin bolt", "brake rotor", "brake pad", "brake drum", "brake shoe",
    "wheel nut", "wheel bolt", "engine oil", "engine oil drain plug", "brake fluid", "axle nut",
}  # fmt: skip


class Sheet:
    """The rows of one area of one branch of one generation."""

    def __init__(self, generation: Generation, branch: Branch) -> None:
        self.generation = generation
        self.branch = branch
        self.size = SIZES.index(generation.size)
        self.rear = branch.rear or generation.rear
        self.motor = branch.motor or generation.motor
        self.driven = branch.driven or generation.driven
        self.rows: list[Row] = []

    def draw(self, *words: str) -> Random:
        """Chance of its own for each figure, so that a new vehicle or component leaves the others as they are."""
        car = self.generation
        return Random("|".join([SEED, car.make, car.model, str(car.first), self.branch.only_if, *words]))

    def add(self, component: str, position: str, prop: str, value: str, **more: str) -> None:
        """One row, unless it is one of the holes that any shop's book has."""
        if not self._held(component, position, prop):
            return
        car = self.generation
        row = {
            "make": car.make, "model": car.model, "year_from": str(car.first), "year_to": str(car.last),
            "only_if": self.branch.only_if, "component": component, "position": position, "property": prop,
            "value": value, **more,
        }  # fmt: skip
        if car.second and prop not in ("socket", "maximum runout", "maximum thickness variation"):
            row["second_value"] = in_second_unit(value)
        self.rows.append(row)

    def _held(self, component: str, position: str, prop: str) -> bool:
        if component not in _ASKED_DAILY and self.draw("not held", component, position).random() < 0.35:
            return False
        if prop == "socket" and self.draw("no socket", component, position).random() < 0.35:
            return False
        return self.draw("hole", component, position, prop).random() >= 0.07

    def joint(self, component: str, position: str, kind: str = "") -> tuple[Joint, Random]:
        return JOINTS[kind or component][self.size], self.draw(component, position, "figure")

    def bolt(
        self, component: str, position: str, kind: str = "", form: str = "plain", head: bool = False, **more: str
    ) -> None:
        """A torque row, and a socket row where the sheet of this vehicle names the head."""
        joint, chance = self.joint(component, position, kind)
        newton_metres = chance.randint(joint.low, joint.high)
        extra = {"thread": joint.thread, "class": joint.grade} if joint.grade or chance.random() < 0.5 else {}
        value = torque(newton_metres, self.generation.units, form, chance)
        self.add(component, position, "torque", value, **extra, **more)
        heads = BLEEDER_HEADS if component == "bleeder screw" else HEADS.get(joint.thread.partition("x")[0])
        if head and heads:
            self.add(component, position, "socket", f"{chance.choice(heads)} mm")
        if head and chance.random() < 0.12:
            self.add(component, position, "thread", joint.thread)

"""English: what stands around a step of a procedure."""

from __future__ import annotations

from collections.abc import Mapping

STEPS: Mapping[str, str] = {
    "stop": "STOP if: {when} {do}",
    "shop": "Your shop says: {text}",
    "where": "{title}, step {number} of {of}",
    "only if": "Only with: {fitted}",
    "because": "Because: {text}",
    "measure": "Measure {what}: {where}",
    "look": "Check: {text}",
    "good": "  Good: {text}",
    "bad": "  Bad: {text}",
    "then": "  Then: {text}",
    "rule": "Rule: {text}",
    "lead tech": "Show your lead tech before you go on.",
    "from the book": "Tighten the {thing} to:",
    "not held": "The book holds no torque for the {thing} of this vehicle: do not guess one.",
    "no vehicle": "Torque of the {thing}: say year, make and model, then ask “{asked} torque”.",
    "open": "Torque of the {thing}: more decides it than you said. Ask “{asked} torque”, and I ask back what is open.",
    "next step": "Next step",
    "whole list": "Whole list",
    "instead": "Or: {title}",
}

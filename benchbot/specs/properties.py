"""What a spec row can state of a component, and the kind of quantity each property holds."""

from __future__ import annotations

from difflib import get_close_matches

from benchbot.quantities.amounts import ValueKind

PROPERTIES: dict[str, ValueKind] = {
    "torque": "torque",
    "socket": "tool size",
    "thread": "thread",
    "minimum thickness": "length",
    "nominal thickness": "length",
    "machine-to thickness": "length",
    "maximum diameter": "length",
    "maximum runout": "length",
    "maximum thickness variation": "length",
    "capacity": "volume",
    "fluid": "words",
    "gap": "length",
    "pressure": "pressure",
    "note": "words",
}


def read_property(text: str) -> str | None:
    """The property's exact name; letter case, runs of spaces and the hyphen are forgiven, spelling is not."""
    plain = " ".join(text.casefold().split())
    return plain if plain in PROPERTIES else _WITHOUT_HYPHEN.get(plain.replace("-", " "))


def nearest_property(text: str) -> str:
    """What to write instead of a text that is no property."""
    near = get_close_matches(" ".join(text.casefold().split()), PROPERTIES, 1, 0.7)
    return f"write {near[0]}" if near else "write one of: " + ", ".join(PROPERTIES)


_WITHOUT_HYPHEN = {name.replace("-", " "): name for name in PROPERTIES}

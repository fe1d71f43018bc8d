"""The compiled vocabulary: plain values that the reader of messages works on, stored in the book as JSON."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any, Literal

Axles = Literal["both", "front", "rear", "none"]
Kind = Literal["fastener", "part", "fluid"]


@dataclass(frozen=True, slots=True)
class Component:
    """A thing that a spec row can be about.

    axles: "both" = it can sit on either axle, so the axle must be stated; "front" or "rear" = by nature on that
    axle only; "none" = the axle says nothing (engine, steering, fluids).
    fastens: the parts that this fastener holds ("bracket torque" means the bolts of the bracket).
    default: the property meant when none is said; None = it must be asked.
    """

    name: str
    group: str
    kind: Kind
    axles: Axles
    fastens: tuple[str, ...]
    properties: tuple[str, ...]
    default: str | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words that are said together, in any order, and what they can mean.

    means: names of components (or of properties). More than one: which is meant must be found out.
    always: ask even when the book holds only one of them (words with two trade meanings, vague properties).
    ask: the question to put, or "".
    """

    words: tuple[str, ...]
    means: tuple[str, ...]
    always: bool
    ask: str


@dataclass(frozen=True, slots=True)
class WordForm:
    """A way of writing a word: `how` is "short", "variant", "spanish", or "heard" (a real word that dictation or
    autocorrect puts in its place, read so only where it completes a phrase of the trade)."""

    word: str
    how: str


@dataclass(frozen=True, slots=True)
class Stated:
    """What a phrase states of the vehicle: key and value as a spec row writes them ("drive", "4WD").

    part: the phrase names only a part of a value or a kind of value ("turbo", "diesel").
    """

    key: str
    value: str
    part: bool


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning and its wording; first: it changes what is done before a value is used.

    others: language -> the wording in it, for languages other than English.
    """

    name: str
    text: str
    first: bool
    others: dict[str, str] = field(default_factory=dict)

    def text_in(self, language: str) -> str | None:
        """The wording in a language; None where it has none."""
        return self.text if language == "en" else self.others.get(language)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Everything the shop's language is made of, apart from vehicle names."""

    digest: str
    components: dict[str, Component]
    component_phrases: tuple[Phrase, ...]
    property_phrases: tuple[Phrase, ...]
    words: dict[str, tuple[WordForm, ...]]
    positions: dict[str, tuple[str, ...]]
    qualifiers: dict[str, tuple[Stated, ...]]
    lists: dict[str, tuple[str, ...]]
    cautions: dict[str, Caution]

    def to_plain(self) -> dict[str, Any]:
        """The vocabulary as JSON-able values."""
        return asdict(self)

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Vocabulary:
        """The inverse of `to_plain`; the values are trusted (they were checked when the book was made)."""
        return cls(
            digest=plain["digest"],
            components={
                name: Component(
                    c["name"],
                    c["group"],
                    c["kind"],
                    c["axles"],
                    tuple(c["fastens"]),
                    tuple(c["properties"]),
                    c["default"],
                    tuple(c["cautions"]),
                )
                for name, c in plain["components"].items()
            },
            component_phrases=_phrases(plain["component_phrases"]),
            property_phrases=_phrases(plain["property_phrases"]),
            words={w: tuple(WordForm(f["word"], f["how"]) for f in forms) for w, forms in plain["words"].items()},
            positions={p: tuple(v) for p, v in plain["positions"].items()},
            qualifiers={
                q: tuple(Stated(s["key"], s["value"], s["part"]) for s in stated)
                for q, stated in plain["qualifiers"].items()
            },
            lists={name: tuple(words) for name, words in plain["lists"].items()},
            # books made before cautions were worded in other languages hold no "others"
            cautions={
                n: Caution(c["name"], c["text"], c["first"], dict(c.get("others", {})))
                for n, c in plain["cautions"].items()
            },
        )


def _phrases(plain: list[dict[str, Any]]) -> tuple[Phrase, ...]:
    return tuple(Phrase(tuple(p["words"]), tuple(p["means"]), p["always"], p["ask"]) for p in plain)

"""Properties, positions, qualifiers and forms of single words: what is typed in a bay is there and means one thing."""

from __future__ import annotations

import pytest

from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Stated, Vocabulary

# Common practice, no source.
CLEAR = {
    "torque": "tq|torque spec|how tight|tightening torque|apriete|trq|ft lb spec|how many ft lbs|torque angle",
    "socket": "socket size|wrench size|what size wrench|hex|dado|vaso|spanner size|what hex|size socket|which socket",
    "thread": "thread pitch|thread size|pitch|thread|rosca",
    "minimum thickness": "min|minimum|min thickness|min lining|how thin|throwaway thickness|grosor minimo"
    "|discard thickness",
    "nominal thickness": "when new|new|nominal|standard|original thickness|stock thickness|thickness when new",
    "machine-to thickness": "machine to|turn to|refinish min|turn limit|skim limit|resurface",
    "maximum diameter": "max diameter|max dia|discard dia|diametro maximo|max wear",
    "maximum runout": "runout|run out|lro|tir|max runout|lateral runout|runout limit|wobble|swash",
    "maximum thickness variation": "dtv|thickness variation|parallelism|tv",
    "capacity": "capacity|how much|how many quarts|how many liters|how many qts|fill capacity|cuanto",
    "fluid": "what kind|type|which oil|what weight|grade|viscosity|what type of|tipo",
    "gap": "gap|electrode gap",
    "pressure": "pressure|psi|inflation|tire pressure",
    "note": "note|anything special",
}
VAGUE = {
    "limit": {"minimum thickness", "maximum diameter"},
    "wear limit": {"minimum thickness", "maximum diameter"},
    "discard": {"minimum thickness", "maximum diameter"},
    "max": {"maximum diameter", "maximum runout"},
}
ALWAYS_ASKED = ("thickness", "spec", "specs", "diameter", "size", "width", "how thick")


def property_of(vocabulary: Vocabulary, said: str) -> tuple[tuple[str, ...], bool]:
    words = name_words(said)
    return next((p.means, p.always) for p in vocabulary.property_phrases if p.words == words)


@pytest.mark.parametrize(("name", "said"), [(name, said) for name, line in CLEAR.items() for said in line.split("|")])
def test_a_clear_word_names_one_property(vocabulary: Vocabulary, name: str, said: str) -> None:
    assert property_of(vocabulary, said) == ((name,), False)


@pytest.mark.parametrize(("said", "could_be"), VAGUE.items())
def test_a_vague_word_leaves_it_open(vocabulary: Vocabulary, said: str, could_be: set[str]) -> None:
    means, always = property_of(vocabulary, said)
    assert could_be <= set(means)
    assert not always


@pytest.mark.parametrize("said", ALWAYS_ASKED)
def test_some_words_are_always_asked_back(vocabulary: Vocabulary, said: str) -> None:
    means, always = property_of(vocabulary, said)
    assert always
    assert len(means) > 1


@pytest.mark.parametrize(
    ("component", "word", "left"),
    [
        ("brake drum", "limit", {"maximum diameter"}),
        ("brake drum", "discard", {"maximum diameter"}),
        ("brake drum", "max", {"maximum diameter"}),
        ("brake rotor", "discard", {"minimum thickness"}),
        ("brake rotor", "wear limit", {"minimum thickness"}),
        ("brake pad", "limit", {"minimum thickness"}),
        ("brake shoe", "wear limit", {"minimum thickness"}),
        ("brake rotor", "max", {"maximum runout", "maximum thickness variation"}),
    ],
)
def test_the_component_narrows_a_vague_word(vocabulary: Vocabulary, component: str, word: str, left: set[str]) -> None:
    means, _ = property_of(vocabulary, word)
    assert set(means) & set(vocabulary.components[component].properties) == left


@pytest.mark.parametrize(
    ("said", "tokens"),
    [
        ("front", ("front",)), ("frt", ("front",)), ("frnt", ("front",)), ("f", ("front",)), ("delantera", ("front",)),
        ("rear", ("rear",)), ("back", ("rear",)), ("trasero", ("rear",)), ("rr", ("rear",)), ("r", ("r?",)),
        ("rf", ("front", "right")), ("lf", ("front", "left")), ("lr", ("rear", "left")), ("lh", ("left",)),
        ("rh", ("right",)), ("driver side", ("side",)), ("drivers side", ("side",)), ("passenger side", ("side",)),
        ("nearside", ("side",)), ("offside", ("side",)), ("upper", ("upper",)), ("top", ("upper",)),
        ("lwr", ("lower",)), ("bottom", ("lower",)), ("inboard", ("inner",)), ("outside", ("outer",)),
        ("all four", ("front", "rear")), ("front and rear", ("front", "rear")), ("all around", ("front", "rear")),
        ("both axles", ("front", "rear")), ("back of the knuckle", ()), ("right now", ()), ("front desk", ()),
    ],
)  # fmt: skip
def test_positions(vocabulary: Vocabulary, said: str, tokens: tuple[str, ...]) -> None:
    assert vocabulary.positions[said] == tokens


def test_spanish_del_is_of_the_and_no_position(vocabulary: Vocabulary) -> None:
    assert "del" not in vocabulary.positions
    assert "del" in vocabulary.lists["joining"]


@pytest.mark.parametrize(
    ("said", "stated"),
    [
        ("4x4", Stated("drive", "4WD", False)), ("four wheel drive", Stated("drive", "4WD", False)),
        ("4x2", Stated("drive", "2WD", False)), ("two wheel drive", Stated("drive", "2WD", False)),
        ("awd", Stated("drive", "AWD", False)), ("front wheel drive", Stated("drive", "FWD", False)),
        ("rwd", Stated("drive", "RWD", False)), ("dually", Stated("axle", "DRW", False)),
        ("srw", Stated("axle", "SRW", False)), ("turbo", Stated("engine", "turbo", True)),
        ("diesel", Stated("engine", "diesel", True)), ("v6", Stated("engine", "V6", True)),
        ("sport", Stated("trim", "sport", True)), ("heavy duty", Stated("brakes", "heavy duty", True)),
        ("stick", Stated("transmission", "manual", True)), ("wagon", Stated("body", "wagon", True)),
    ],
)  # fmt: skip
def test_qualifiers(vocabulary: Vocabulary, said: str, stated: Stated) -> None:
    assert stated in vocabulary.qualifiers[said]


@pytest.mark.parametrize(
    ("form", "word", "how"),
    [
        ("cal", "caliper", "short"), ("calliper", "caliper", "variant"), ("mordaza", "caliper", "spanish"),
        ("caliber", "caliper", "heard"), ("collar per", "caliper", "heard"), ("brk", "brake", "short"),
        ("brk", "bracket", "short"), ("brkt", "bracket", "short"), ("break", "brake", "heard"),
        ("router", "rotor", "heard"), ("pen", "pin", "heard"), ("knot", "nut", "heard"), ("not", "nut", "heard"),
        ("bold", "bolt", "heard"), ("bowl", "bolt", "heard"), ("join", "joint", "heard"), ("luck", "lug", "heard"),
        ("log", "lug", "heard"), ("stub", "stud", "heard"), ("have", "hub", "heard"), ("ling", "link", "heard"),
        ("spin dull", "spindle", "heard"), ("rob", "rod", "heard"), ("sleeve", "slide", "heard"),
        ("path", "pad", "heard"), ("paths", "pad", "heard"), ("barrel", "bearing", "heard"),
        ("burning", "bearing", "heard"), ("baring", "bearing", "heard"), ("rain", "drain", "heard"),
        ("sped", "speed", "heard"), ("talk", "torque", "heard"), ("torch", "torque", "heard"),
        ("touch", "torque", "heard"), ("and", "end", "heard"), ("sway", "stabilizer", "variant"),
    ],
)  # fmt: skip
def test_forms_of_words(vocabulary: Vocabulary, form: str, word: str, how: str) -> None:
    assert how in {f.how for f in vocabulary.words[form] if f.word == word}


def test_a_misheard_word_is_no_common_verb(vocabulary: Vocabulary) -> None:
    """Such a word would make a part out of an ordinary sentence ("has the caliper been torqued")."""
    heard = {form for form, ways in vocabulary.words.items() if all(way.how == "heard" for way in ways)}
    assert not heard & {
        "been",
        "is",
        "do",
        "does",
        "will",
        "look",
        "like",
        "time",
        "way",
        "up",
        "all",
        "both",
        "car",
        "side",
    }

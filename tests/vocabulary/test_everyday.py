"""The everyday words must stay free of anything that could choose or hide a spec."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from rapidfuzz.distance import OSA

from benchbot.places import knowledge_folder
from benchbot.understanding.lexicon import singulars


def _listed(text: str) -> frozenset[str]:
    return frozenset(text.split())


# The trade words below were gathered by hand: common practice, no source.
SHORT_TRADE_WORDS = _listed(
    """
    arm arms axle ball bar bars bearing belt bleed bleeder bolt bolts boot boots box bracket brake brkt bush
    cable cal caliper cap caps castle clip clips coil cone cotter cover cross cup diff disc disk drain drum fan
    fill fluid frame front fuel gap gear guide hex horn hose hub hubs inner joint knuckle left line lines link
    links lower lug lugs max min mount nut nuts oil outer pad pads pan pin pinch pins piston pitch plate plug
    plugs pump rack rear right rim ring rod rods rotor screw seal seals sensor shaft shim shock shoe shoes size
    sleeve slide slider socket spec spindle spring strut stud studs thread tie tire torque torx upper valve
    wheel yoke
    """
)

OTHER_TRADE_WORDS = _listed(
    """
    abutment accumulator actuator adapter adjuster all alternator anchor antifreeze assembly auto automatic
    backing balancer banjo base battery bellows blue body booster both bottom brakes bumper bushing calipers
    camber camshaft capacity carrier center charger chassis clamp class clutch cold coolant cooler coupe
    coupling crank crankshaft crossmember cut cylinder damper degree degrees diesel differential discard door
    dot downpipe drip drive driver driveshaft dry duty each ear eight eighty electric eleven engine exhaust
    fastener feet fender fifty filter fitting five flange flex foot forty four free ft gaiter gallon gasket
    gasoline gearbox grade grease green handbrake hanger hardware harness hat heavy hinge hold hood hook hours
    housing hundred hybrid idler ignition inboard inch inches injector inside insulator intake jam keeper key
    knock lb lbs leaf level lever lift light limit limited lining liter liters lock locker loctite long lube
    machine main manifold manual master measure middle mile miles minimum minutes mirror mm module motor muffler
    nearside neck needle new nine ninety nipple nm nominal nozzle offside oiled or orange order other outboard
    outlet outside oversize panel parking passenger pattern pedal petrol pickup pilot pinion pink pint pipe
    pitman pivot position post power preload press pressure primary procedure propshaft psi puck pulley quart
    quarts radiator rail read reading red replace reservoir retainer retaining reuse rotate runout same screws
    seat seats secondary sedan seizing sensors sequence servo set seven seventy shackle shield short side sides
    silicone six sixty snap snug spacer speaker specs speed splash spline splitter sport spreader squealer
    stabilizer stage star starter steering stem step stick stock stop stretch subframe sump support suspension
    sway switch tail tailgate tank taper ten tensioner terminal thermostat thick thickness thin thirty thousand
    three throttle tight tighten tires tone top touring track trailing transmission trim trunk tube turbo turn
    twelve twenty two type union upright value van vent vented wagon washer water wear weld wet wheels width
    window wiper wishbone without wrench yellow zero
    """
)

# A model named by a plain word must never be read as talk: the vehicle before it would then be answered for.
WORDS_OFTEN_USED_AS_MODEL_NAMES = _listed(
    """
    accent challenger charger compass edge element escape explorer express focus fusion golf insight journey
    judge legacy legend magic mirage note odyssey passport pilot quest ranger rogue safari sierra smart sonic
    soul spark summit titan traverse venture vibe vision voyager
    """
)

# Too common to be anything else, although one letter away from a trade word.
TOO_COMMON_TO_MISS = _listed(
    """
    bad bay bent best bill boy busy calm car cars crap dad deal desk fell felt fine fun god hear hey hire home
    hope joke late lie life mad man men mind paid pal pay plan rain ran rang rig rush sad sell ship shit shop
    shot sup tall tore torn warm year
    """
)

# Parts of "a/c", "hub to knuckle" and "hold down": read as parts of those, and as grammar elsewhere.
GRAMMAR_INSIDE_PART_NAMES = frozenset({"a", "to", "down"})

# "hand brake" makes it a trade word; "hands" is the commonest word of all under a car.
PLURALS_OF_THEIR_OWN = frozenset({"hands"})


def sections() -> dict[str, list[str]]:
    """The words of each section, in the order of the file."""
    found: dict[str, list[str]] = {}
    current: list[str] | None = None
    for line in (knowledge_folder() / "everyday.txt").read_text("utf-8").splitlines():
        if line.startswith("["):
            current = found.setdefault(line, [])
        elif line and not line.startswith("#"):
            assert current is not None, f"{line!r} stands before the first section"
            current.append(line)
    return found


@pytest.fixture(scope="module")
def everyday() -> dict[str, list[str]]:
    return sections()


@pytest.fixture(scope="module")
def words(everyday: dict[str, list[str]]) -> list[str]:
    return [word for section in everyday.values() for word in section]


def words_of_parts(folder: Path) -> set[str]:
    """Every word by which the knowledge files name a component, in every way of writing it but the misheard ones."""
    found: set[str] = set()
    for entry in yaml.load((folder / "words.yaml").read_text("utf-8"), yaml.BaseLoader)["words"]:
        for how, written in entry.items():
            if how != "heard":
                found.update([written] if isinstance(written, str) else written)
    for file in sorted((folder / "components").glob("*.yaml")):
        for component in yaml.load(file.read_text("utf-8"), yaml.BaseLoader)["components"]:
            for phrase in (component["name"], *component.get("said", [])):
                found.update(re.findall(r"[a-z]+", phrase))
    return found


def test_there_are_just_two_sections(everyday: dict[str, list[str]]) -> None:
    assert list(everyday) == ["[function]", "[chatter]"]


def test_the_words_are_many(everyday: dict[str, list[str]], words: list[str]) -> None:
    assert 4000 <= len(words) <= 6500
    assert 300 <= len(everyday["[function]"]) < len(everyday["[chatter]"])


def test_every_word_is_plain_lower_case_letters(words: list[str]) -> None:
    assert [word for word in words if not re.fullmatch(r"[a-z]+", word)] == []


def test_no_word_stands_twice(words: list[str]) -> None:
    assert sorted(word for word in set(words) if words.count(word) > 1) == []


def test_no_word_is_a_trade_word(words: list[str]) -> None:
    trade = SHORT_TRADE_WORDS | OTHER_TRADE_WORDS
    assert len(trade) >= 200
    assert sorted(trade & set(words)) == []


def test_no_word_is_a_common_model_name(words: list[str]) -> None:
    assert sorted(WORDS_OFTEN_USED_AS_MODEL_NAMES & set(words)) == []


def test_no_short_chatter_is_a_slip_away_from_a_trade_word(everyday: dict[str, list[str]]) -> None:
    near = {
        word
        for word in everyday["[chatter]"]
        if len(word) < 5 and any(OSA.distance(word, trade) == 1 for trade in SHORT_TRADE_WORDS)
    }
    assert near == TOO_COMMON_TO_MISS


def test_no_word_names_a_component_of_the_knowledge_files(words: list[str]) -> None:
    parts = words_of_parts(knowledge_folder())
    assert {"caliper", "bracket", "mordaza"} <= parts
    assert set(words) & parts <= GRAMMAR_INSIDE_PART_NAMES


def test_no_word_is_the_plural_of_a_component_word(words: list[str]) -> None:
    parts = words_of_parts(knowledge_folder())
    plurals = {word for word in words if any(form in parts for form in singulars(word)[1:])}
    assert plurals <= PLURALS_OF_THEIR_OWN


@pytest.mark.parametrize(
    ("message", "section"),
    [
        ("oh its a", "[function]"),
        ("ok now the", "[function]"),
        ("and what about on a", "[function]"),
        ("nah make it", "[function]"),
        ("i meant the", "[function]"),
        ("was a", "[function]"),
        ("rough year lol", "[chatter]"),
        ("hands greasy phone boss lunch weather customer apprentice", "[chatter]"),
        ("snapped broke stripped stuck seized rusty leakin hanging squealing grinding pulsating", "[chatter]"),
        ("hammer breaker ratchet impact gun torch pliers", "[chatter]"),
    ],
)
def test_words_stand_in_the_section_they_are_used_for(
    everyday: dict[str, list[str]], message: str, section: str
) -> None:
    assert [word for word in message.split() if word not in everyday[section]] == []

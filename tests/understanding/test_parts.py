"""Which components a message names, by which words, and what is asked of each."""

from __future__ import annotations

import pytest
from desk import NOW, Desk

from benchbot.conversation.past import Past
from benchbot.understanding.reading import Ask, Reading


def read(desk: Desk, text: str) -> Reading:
    return desk.conversation.read(f"2012 ondrel {text}", Past(), NOW)[0][0]


def asks(desk: Desk, text: str) -> list[Ask]:
    return list(read(desk, text).asks)


BRACKET, PIN = "caliper bracket bolt", "caliper slide pin bolt"


@pytest.mark.parametrize(
    ("text", "component"),
    [
        ("front bracket bolt", BRACKET),
        ("bolt of the front bracket", BRACKET),
        ("front caliper mounting bracket bolts", BRACKET),
        ("carrier bolt front", BRACKET),
        ("bolts that hold the caliper bracket front", BRACKET),
        ("front slide pin bolt", PIN),
        ("front guide pins", PIN),
        ("front caliper pin", PIN),
        ("stabilizer link nut front", "stabilizer link nut"),
        ("sway bar end link nut front", "stabilizer link nut"),
        ("lca bolt front", "lower control arm bolt"),
        ("tre nut", "tie rod end nut"),
        ("epb motor screw", "electric parking brake motor screw"),
        ("front hub nut", "axle nut"),
        ("banjo front", "brake hose banjo bolt"),
        ("rear wheel cyl bolts", "wheel cylinder bolt"),
        ("sump plug", "engine oil drain plug"),
        ("front calipr braket bolt", BRACKET),
        ("front bracket blot", BRACKET),
        ("front brackett bolt", BRACKET),
        ("frt brkt blt", BRACKET),
        ("front break bracket bold", BRACKET),
        ("front collar per bracket bolt", BRACKET),
        ("lug knot", "wheel nut"),
        ("tuerca de rueda", "wheel nut"),
        ("purgador trasero", "bleeder screw"),
        ("tornillo del volante del motor", "flywheel bolt"),
        ("tornillo del volante de dirección", "steering wheel bolt"),
        ("tapón de drenado del radiador", "coolant drain plug"),
    ],
)
def test_one_component(desk: Desk, text: str, component: str) -> None:
    (ask,) = asks(desk, text)
    assert ask.components == (component,)
    assert ask.properties == ("torque",)


@pytest.mark.parametrize(
    ("text", "components"),
    [
        ("front caliper bolt", {BRACKET, PIN}),
        ("front caliper torque", {BRACKET, PIN}),
        ("front slider bolt", {BRACKET, PIN}),
        ("front knuckle bolt", {BRACKET, "strut to knuckle bolt", "hub bearing bolt"}),
        ("front wheel bearing", {"hub bearing bolt", "axle nut"}),
        ("front spindle nut", {"axle nut", "wheel bearing adjusting nut"}),
        ("stud", {"wheel nut", "wheel bolt", "wheel stud"}),
        ("pinch bolt", {"ball joint pinch bolt", "steering shaft pinch bolt"}),
        ("brake line front", {"brake line flare nut", "brake hose banjo bolt"}),
        ("ball joint nut", {"lower ball joint nut", "upper ball joint nut"}),
        ("lugs", {"wheel nut", "wheel bolt"}),
        ("plug torque", {"spark plug", "engine oil drain plug"}),
        ("torque del volante", {"steering wheel bolt", "steering wheel nut", "flywheel bolt"}),
        ("tornillo del volante", {"steering wheel bolt", "flywheel bolt"}),
        ("tapón del radiador", {"radiator cap", "coolant drain plug"}),
    ],
)
def test_words_with_more_than_one_meaning_keep_them_all(desk: Desk, text: str, components: set[str]) -> None:
    (ask,) = asks(desk, text)
    assert components <= set(ask.components)
    assert len(ask.components) > 1


@pytest.mark.parametrize(
    ("text", "components"),
    [
        ("front bracket bolt and slide pin bolt", [BRACKET, PIN]),
        ("front bracket bolt + slide pin bolt", [BRACKET, PIN]),
        ("front bracket bolt, slide pin bolt", [BRACKET, PIN]),
        ("lower and upper ball joint nuts", ["lower ball joint nut", "upper ball joint nut"]),
        ("tie rod end nut and axle nut front", ["tie rod end nut", "axle nut"]),
    ],
)
def test_two_components(desk: Desk, text: str, components: list[str]) -> None:
    assert sorted(name for ask in asks(desk, text) for name in ask.components) == sorted(components)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("front rotor min and bracket bolt torque", {"brake rotor": ("minimum thickness",), BRACKET: ("torque",)}),
        ("lug nut torque and axle nut socket front", {"wheel nut": ("torque",), "axle nut": ("socket",)}),
        ("front bracket bolt and slide pin bolt socket", {BRACKET: ("socket",), PIN: ("socket",)}),
    ],
)
def test_each_figure_goes_to_its_component(desk: Desk, text: str, wanted: dict[str, tuple[str, ...]]) -> None:
    assert {ask.components[0]: ask.properties for ask in asks(desk, text)} == wanted


@pytest.mark.parametrize(
    ("text", "component"),
    [
        ("rear drum wheel cylinder bolts", "wheel cylinder bolt"),
        ("front rotor bracket bolt", BRACKET),
        ("front brake pads bracket bolt", BRACKET),
        ("doing struts front, strut to knuckle bolt", "strut to knuckle bolt"),
    ],
)
def test_what_only_says_where_is_not_asked_of(desk: Desk, text: str, component: str) -> None:
    assert [ask.components for ask in asks(desk, text)] == [(component,)]


@pytest.mark.parametrize(
    ("text", "figures", "vague"),
    [
        ("front rotor", (), True),
        ("front rotor thickness", ("minimum thickness", "nominal thickness", "machine-to thickness"), True),
        ("front rotor min", ("minimum thickness",), False),
        ("front rotor discard", ("minimum thickness",), False),
        ("front rotor limit", ("minimum thickness",), False),
        ("rear drum limit", ("maximum diameter",), False),
        ("rear drum discard", ("maximum diameter",), False),
        ("rear drum diameter", ("maximum diameter",), True),
        ("front rotor dtv", ("maximum thickness variation",), False),
        ("front rotor min and new", ("minimum thickness", "nominal thickness"), False),
        ("new front rotors, min?", ("minimum thickness",), False),
        ("spark plug", (), True),
        ("spark plug gap", ("gap",), False),
        ("oil", (), True),
        ("what oil", ("fluid",), False),
        ("how much oil", ("capacity",), False),
        ("lug nut in nm", ("torque",), False),
        ("front bracket bolt spec", ("torque",), True),
    ],
)
def test_what_is_asked(desk: Desk, text: str, figures: tuple[str, ...], vague: bool) -> None:
    (ask,) = asks(desk, text)
    assert (ask.properties, ask.vague) == (figures, vague)


@pytest.mark.parametrize("text", ["sprocket torque", "front flibber bracket bolt torque", "zug bolt torque front"])
def test_a_part_that_nobody_taught_is_no_known_one(desk: Desk, text: str) -> None:
    reading = read(desk, text)
    assert reading.unknown_part or reading.left_over or not reading.asks
    assert desk.ask(f"2012 ondrel {text}").reply.specs == ()


@pytest.mark.parametrize(("text", "unit"), [("lugs in nm", "N·m"), ("lugs ft lbs", "lb-ft"), ("lugs", None)])
def test_the_unit_wanted(desk: Desk, text: str, unit: str | None) -> None:
    assert read(desk, text).unit == unit

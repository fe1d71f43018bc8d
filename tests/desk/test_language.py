"""The desk speaks the language of the location where a person stands, and all of it."""

from __future__ import annotations

from datetime import timedelta

import pytest
from bay import Bay, Phone, later
from desk import NOW
from tell_tales import english_in

from benchbot.people.terms import UNITS, Location

QUESTION = "12 ondrel frt cal brkt bolt tq"
CHOICE = "12 ondrel bracket bolt torque"
OUTSIDE = "Ask your shop for an invite."


@pytest.fixture
def south(bay: Bay) -> Location:
    return bay.location("Sur", "es")


@pytest.fixture
def ana(bay: Bay, south: Location) -> Phone:
    return bay.phone("Ana", technician=south)


def test_a_question_a_choice_and_its_answer(ana: Phone) -> None:
    asked = ana.say(CHOICE)
    assert (asked.text.splitlines()[0], asked.labels) == ("¿Adelante o atrás?", ["adelante", "atrás"])
    answered = ana.press("adelante")
    assert answered.text.splitlines()[0] == "50 lb-ft = 68 N·m (convertido)"
    assert answered.labels == ["Otra unidad", "Más", "Cómo lo leí", "¿Está mal?"]
    assert "2012 Brackwell Ondrel, caliper bracket bolt (tornillo del soporte del caliper) ADELANTE" in answered.text
    assert (len(ana.shown), answered.changes, english_in(answered)) == (1, 1, [])


@pytest.mark.parametrize("typed", ["adelante", "Adelante", "front", "frt", "delantero", "1"])
def test_a_choice_is_typed_in_either_language(ana: Phone, typed: str) -> None:
    ana.say(CHOICE)
    assert ana.say(typed).text.startswith("50 lb-ft = 68 N·m (convertido)")


def test_a_spanish_question(ana: Phone) -> None:
    shown = ana.say("tornillo del soporte del caliper delantero ondrel 2012")
    assert shown.text.startswith("50 lb-ft = 68 N·m (convertido)")


def test_two_questions_one_after_the_other_and_a_button_of_the_first(ana: Phone) -> None:
    shown = ana.say("17 ondrel bracket bolt torque")
    code = shown.sheet.buttons[0].code
    ana.press("adelante")
    after = shown.sheet
    assert shown.text.splitlines()[0] == "¿Qué motor?"
    ana.press_code(shown, code)
    assert (shown.sheet, ana.notice) == (after, "Esa pregunta está cerrada. Pregunte otra vez.")
    ana.press("1.6")
    assert "(convertido)" in shown.text


def test_a_question_asked_in_one_language_is_chosen_from_in_the_other(bay: Bay, ana: Phone, south: Location) -> None:
    ben, asked = bay.phone("Ben", technician=south), ana.say(CHOICE)
    bay.people.set_defaults(south.number, language="en")
    ana.press_code(asked, asked.button("adelante").code)
    assert asked.text.startswith("50 lb-ft = 68 N·m (converted)")
    again = ben.say(CHOICE)
    bay.people.set_defaults(south.number, language="es")
    ben.press_code(again, again.button("front").code)
    assert again.text.startswith("50 lb-ft = 68 N·m (convertido)")


def test_views_of_an_answer(ana: Phone) -> None:
    shown = ana.say(QUESTION)
    main = shown.text
    ana.press("Más")
    assert "Fila D0001, revisión 1, vale para 2009-2013." in shown.text
    ana.press("Cómo lo leí")
    assert "Así leí su mensaje:" in shown.text
    assert "“cal brkt bolt”: pieza: caliper bracket bolt (tornillo del soporte del caliper)" in shown.text
    ana.press("Menos")
    assert shown.text == main
    ana.press("Otra unidad")
    assert shown.text.splitlines()[0] == "50 lb-ft = 600 lb-in, 68 N·m (convertido)"


@pytest.mark.parametrize(
    "text", [QUESTION, "12 ondrel front rotor min", "12 ondrel front bracket bolt torque and socket", "lug nut torque"]
)
def test_values_and_units_are_the_same_in_both_languages(bay: Bay, ana: Phone, text: str) -> None:
    ben = bay.phone("Ben", technician=bay.location("North"))
    spanish, english = (phone.say(f"12 ondrel {text}") for phone in (ana, ben))
    values = [
        [block.text for block in shown.sheet.blocks if block.kind in ("value", "converted")]
        for shown in (spanish, english)
    ]
    assert [text.replace("convertido", "converted") for text in values[0]] == values[1] != []
    assert [one.code for one in spanish.sheet.buttons] == [one.code for one in english.sheet.buttons]


def test_a_gap(ana: Phone) -> None:
    shown = ana.say("12 ondrel head bolt torque")
    assert shown.text.startswith("No está en nuestro libro: 2012 Brackwell Ondrel")
    assert "Anotado con el núm. 1 para quien lleva el libro." in shown.text
    assert english_in(shown) == []


def test_help_is_spanish_and_its_questions_are_answered(ana: Phone) -> None:
    page = ana.say("/help")
    lines = page.text.splitlines()
    assert (lines[0], english_in(page)) == ("Pregunte por un vehículo y una pieza. Por ejemplo:", [])
    assert "/vehicle Vehículo en el elevador" in lines
    examples = lines[1:4]
    assert len(set(examples)) == 3
    for text in examples:
        assert "¿Está mal?" in ana.say(text).labels, text


def test_each_language_has_examples_of_its_own(bay: Bay, ana: Phone) -> None:
    ben = bay.phone("Ben", technician=bay.location("North"))
    spanish, english = ana.say("/help"), ben.say("/help")
    assert english_in(english) != [], "English is told from Spanish"
    examples = spanish.text.splitlines()[1:4]
    assert not set(examples) & set(english.text.splitlines()[1:4])
    assert ana.say("/help").text.splitlines()[1:4] == examples


def test_the_vehicle_on_the_lift(bay: Bay, ana: Phone) -> None:
    assert ana.say("/vehicle").text.startswith("No hay ningún vehículo en el elevador.")
    assert ana.say("/vehicle 15 ondrel").text.startswith("2015 Brackwell Ondrel: ¿qué dato necesita?")
    later(bay, minutes=1)
    for vehicle in ("12 ondrel", "16 wendla"):
        ana.say(f"{vehicle} lug nut torque")
        later(bay, minutes=1)
    page = ana.say("/vehicle")
    assert page.text.splitlines() == [
        "En el elevador: 2016 Pelbrook Wendla.",
        "Pregunto otra vez después de 4 h, o cuando se nombre otro vehículo.",
        "Cambiar a:",
    ]
    assert page.labels == ["2012 Brackwell Ondrel", "2015 Brackwell Ondrel", "Vaciar"]
    ana.press("2012 Brackwell Ondrel", on=page)
    ana.press("Vaciar", on=page)
    asked = ana.say("front bracket bolt torque")
    assert asked.text.splitlines()[0] == "¿Qué vehículo es?"
    ana.press("2012 Brackwell Ondrel", on=asked)
    assert asked.text.startswith("50 lb-ft")


def test_not_right(bay: Bay, south: Location, ana: Phone) -> None:
    lead = bay.phone("Lead", curator=south)
    shown = ana.say(QUESTION)
    assert "¿Está mal?" in shown.labels
    ana.press("¿Está mal?")
    assert "Usted marcó esto como incorrecto." in shown.text
    assert ana.last.text.startswith("¿Qué está mal?")
    assert ana.last.labels == ["Sin comentario"]
    assert "Ana (Sur) marcó una respuesta como incorrecta, nota 1:" in lead.last.text
    assert "50 lb-ft" in lead.last.text
    assert ana.say("la hoja dice 58").text == "El encargado del libro ya tiene la nota 1. Gracias."
    assert lead.last.text == "Sobre la nota 1:\nla hoja dice 58"
    assert "¿Está mal?" not in shown.labels
    ana.press_code(shown, "wrong")
    assert ana.notice == "Eso ya lo había marcado."


def test_in_a_group_everybody_is_answered_in_the_language_of_their_place(bay: Bay, ana: Phone) -> None:
    ben = bay.phone("Ben", technician=bay.location("North"))
    asked = ana.in_group("-1").say(CHOICE)
    assert asked.labels == ["adelante", "atrás"]
    ben.in_group("-1").press("adelante", on=asked)
    assert ben.notice == "That belongs to somebody else. Ask your own."
    assert ben.in_group("-1").say(CHOICE).labels == ["front", "rear"]
    ana.in_group("-1").press("front", on=ben.in_group("-1").last)
    assert ana.notice == "Eso es de otra persona. Haga su propia pregunta."
    ana.in_group("-1").press("adelante", on=asked)
    assert asked.text.startswith("50 lb-ft")


def test_what_cannot_be_answered_as_it_came(ana: Phone) -> None:
    ana.send("media", kind="photo")
    assert ana.last.text == "Solo leo texto. Escriba año, marca y modelo, la pieza, adelante o atrás."
    ana.send("text", QUESTION, NOW - timedelta(minutes=6))
    assert ana.last.text.startswith("No estaba.")
    assert ana.say("/torque").text == "No conozco /torque. /help dice qué puedo hacer."
    assert ana.say("/ask").text.startswith("Escriba la pregunta detrás: /ask año")
    for _ in range(60):
        ana.send("text", "gracias")
    assert ana.last.text.startswith("Es más de lo que puedo atender a la vez.")


def test_a_changed_question(bay: Bay, ana: Phone) -> None:
    old = ana.say("12 ondrel rear bleeder socket", message="m7")
    ana.change("m7", QUESTION)
    assert "Cambiado: leído otra vez después de su corrección." in old.text
    ana.say("16 wendla front bracket bolt torque")
    later(bay, seconds=1)
    ana.change("m7", CHOICE)
    assert old.labels == []
    assert "El chat siguió adelante" in old.text


def test_inline(bay: Bay, ana: Phone) -> None:
    elsewhere = Phone(bay, ana.person, ana.name, "", False)
    elsewhere.chat = ""
    elsewhere.send("inline", QUESTION, query="i1", message="x")
    (offer,) = bay.offers[-1].offers
    assert offer.title == "50 lb-ft (68 N·m convertido)"
    assert offer.line == (
        "2012 Brackwell Ondrel, caliper bracket bolt (tornillo del soporte del caliper) ADELANTE, torque"
    )
    assert any(block.text.startswith("Fuente: ") for block in offer.sheet.blocks)


@pytest.mark.parametrize("text", ["hola", "/start", "/help", QUESTION])
def test_a_stranger_is_told_in_english_as_nobody_knows_their_language(bay: Bay, south: Location, text: str) -> None:
    assert bay.phone("Zed").say(text).text == OUTSIDE


def test_units_and_language_are_set_apart(bay: Bay, south: Location, ana: Phone) -> None:
    for units in UNITS:
        bay.people.set_defaults(south.number, units=units)
        assert ana.say(QUESTION).text.startswith("50 lb-ft = 68 N·m (convertido)")


def test_the_language_goes_with_the_place_where_one_stands(bay: Bay, south: Location) -> None:
    ana = bay.phone("Ana", technician=bay.location("North"))
    bay.let_in(ana, south, "curator")
    asked = ana.say(CHOICE)
    assert asked.text == "Where do you stand?"
    ana.press("Sur", on=asked)
    assert (asked.text.splitlines()[0], asked.labels) == ("¿Adelante o atrás?", ["adelante", "atrás"])
    assert bay.menu_labels[ana.chat][0] == "Vehículo en el elevador"
    page = ana.say("/location")
    assert page.text == "Está en Sur (encargado del libro)."
    ana.press("North", on=page)
    assert page.text == "You stand at North (technician)."
    assert bay.menu_labels[ana.chat][0] == "Vehicle on the lift"
    assert ana.say(QUESTION).text.startswith("50 lb-ft = 68 N·m (converted)")

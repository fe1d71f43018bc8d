"""Invites, settings, members and refusals at a location that speaks Spanish."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from bay import BOT, Bay, Message, Phone, later
from tell_tales import english_in

from benchbot.desk.wording import wording_of
from benchbot.people.terms import Location

CHOICE = "12 ondrel bracket bolt torque"


@pytest.fixture
def south(bay: Bay) -> Location:
    return bay.location("Sur", "es")


@pytest.fixture
def owner(bay: Bay, south: Location) -> Phone:
    return bay.phone("Olga", owner=south)


def test_whoever_joins_is_welcomed_in_the_language_of_the_location(bay: Bay, owner: Phone) -> None:
    page = owner.say("/invite")
    assert (page.text, page.labels) == ("¿A quién invita a Sur?", ["técnico", "encargado del libro", "dueño", "Volver"])
    owner.press("técnico", on=page)
    owner.press("En la pared: 20 personas, 30 días", on=page)
    picture = owner.last
    assert picture.text.splitlines()[:2] == ["Escanee para entrar a Sur como técnico", f"O abra {picture.picture}"]
    assert (picture.labels, english_in(picture)) == (["Anular"], [])
    assert page.text.startswith("La invitación está abajo.")
    dora = bay.phone("Dora")
    code = picture.text.partition(f"@{BOT.username}: ")[2].split()[0]
    welcome = dora.say(code)
    assert welcome.text.splitlines() == [
        "Ya está dentro: técnico en Sur.",
        "Pida un dato: año, marca y modelo, la pieza, adelante o atrás.",
        wording_of("es").maker_first,
    ]
    assert bay.menu_labels[dora.chat] == ("Vehículo en el elevador", "Un trabajo, paso a paso", "Cómo preguntar")
    assert dora.say(code).text.splitlines()[0] == "Ya pertenece a Sur, como técnico."
    assert dora.say("/start K7QPM-2XWDH-9RTVA").text == "Este código no sirve. Pida otra invitación a su taller."
    assert dora.say("/start").text.splitlines()[0] == "Dora, usted está en Sur (técnico)."


def test_an_invite_to_a_spanish_location_speaks_spanish_whoever_makes_it(bay: Bay, south: Location) -> None:
    olga = bay.phone("Olga", owner=bay.location("North"))
    bay.let_in(olga, south, "owner")
    bay.people.stand(olga.person, bay.people.memberships(olga.person)[0].location.number)
    page = olga.say("/invite")
    for label in ("Sur", "technician", "One person, 2 days"):
        olga.press(label, on=page)
    assert olga.last.text.splitlines()[0].startswith("Escanee para entrar a Sur como técnico")
    assert olga.last.labels == ["Revoke"]


def test_the_owner_sets_the_language_and_the_page_and_the_menus_change_with_it(bay: Bay) -> None:
    north = bay.location("North bay")
    olga, ben = bay.phone("Olga", owner=north), bay.phone("Ben", technician=north)
    page = olga.press("North bay", on=olga.say("/locations"))
    olga.press("Language", on=page)
    assert page.labels == ["English", "Español", "Back"]
    olga.press("Español", on=page)
    assert "Unidades primero: Como está en el libro · idioma: Español · vehículo guardado 4 h" in page.text
    assert page.labels[:2] == ["Invitar", "Miembros"]
    assert english_in(page) == []
    assert bay.menu_labels[ben.chat] == ("Vehículo en el elevador", "Un trabajo, paso a paso", "Cómo preguntar")
    assert bay.menu_labels[olga.chat][4:7] == ("Miembros de un taller", "Invitar a alguien", "Talleres y sus ajustes")
    assert ben.say(CHOICE).labels == ["adelante", "atrás"]
    olga.press("Idioma", on=page)
    assert page.text == "¿Qué idioma se habla en North bay?"
    olga.press("English", on=page)
    assert page.labels[:2] == ["Invite", "Members"]
    assert bay.menu_labels[ben.chat] == ("Vehicle on the lift", "Walk a job step by step", "How to ask")
    assert ben.say(CHOICE).labels == ["front", "rear"]


def turned(owner: Phone) -> Iterator[Message]:
    """The owner's pages, one after the other, each as it shows then."""
    page = owner.say("/locations")
    yield page
    for label in ("Sur", "Unidades", "Volver", "Idioma", "Volver", "Guardar vehículo", "8 h", "Invitaciones abiertas",
                  "Volver", "Miembros", "Ben (técnico)", "Hacer encargado del libro", "Quitar", "Cancelar", "Quitar",
                  "Sí, quitar", "Miembros", "Invitar", "dueño", "Volver", "Volver", "Cambiar nombre", "Cancelar",
                  "Volver", "Agregar un taller", "Cancelar"):  # fmt: skip
        owner.press(label, on=page)
        yield page


def test_the_pages_of_an_owner_hold_no_english(bay: Bay, south: Location, owner: Phone) -> None:
    ben = bay.phone("Ben", technician=south)
    for page in turned(owner):
        assert english_in(page) == [], page.text
    assert [one.text for one in ben.shown] == ["Usted ahora es encargado del libro en Sur."]
    assert bay.people.role_at(ben.person, south.number) is None
    location = bay.people.location(south.number)
    assert location is not None and location.vehicle_hours == 8
    later(bay, minutes=1)
    owner.press("Agregar un taller", on=owner.say("/locations"))
    assert owner.say("sur").text == "Ya hay un taller con ese nombre."
    assert owner.say("x" * 61).text == "Dé un nombre de 1 a 60 caracteres que se puedan ver todos."
    assert owner.say("Norte").text.splitlines()[0] == "Norte ya está, y usted es su dueño."


def test_one_of_a_thing_is_said_as_one(bay: Bay, south: Location, owner: Phone) -> None:
    other = bay.people.members(south.number)
    for one in other:
        if one.person != owner.person:
            bay.people.remove(one.person, south.number, owner.person, bay.clock())
    page = owner.press("Sur", on=owner.say("/locations"))
    assert "1 miembro · 0 invitaciones abiertas" in page.text.splitlines()
    for label in ("Invitar", "técnico", "Una persona, 2 días", "Volver"):
        owner.press(label, on=page)
    assert "1 miembro · 1 invitación abierta" in page.text.splitlines()
    owner.press("Invitaciones abiertas", on=page)
    assert ": técnico, queda 1, hasta " in page.text
    bay.phone("Ben", technician=south)
    for label in ("Volver", "Invitar", "técnico", "En la pared: 20 personas, 30 días", "Volver"):
        owner.press(label, on=page)
    assert "2 miembros · 2 invitaciones abiertas" in page.text.splitlines()
    owner.press("Invitaciones abiertas", on=page)
    assert ": técnico, quedan 20, hasta " in page.text


def test_what_the_register_refuses_is_said_in_spanish(bay: Bay) -> None:
    opened = bay.people.open_first("Taller uno", bay.clock())
    assert isinstance(opened, Location)
    bay.people.set_defaults(opened.number, language="es")
    olga = bay.phone("Olga", owner=opened)
    page = olga.say("/people")
    for label in ("Olga (dueño)", "Quitar", "Sí, quitar"):
        olga.press(label, on=page)
    assert "Un taller se queda al menos con un dueño." in page.text
    locations = olga.say("/locations")
    olga.press_code(locations, f"lh.{opened.number}.99")
    assert locations.text == "Ese valor no se puede poner. Horas: un número entero, de 1 a 24."


@pytest.mark.parametrize("command", ["/people", "/invite", "/locations"])
def test_what_one_may_not_do_is_said_in_spanish(bay: Bay, south: Location, owner: Phone, command: str) -> None:
    ana = bay.phone("Ana", technician=south)
    assert ana.say(command).text == "Eso solo lo puede hacer un dueño de este taller."
    assert owner.in_group("-1").say(command).text == "Hágalo en un chat privado conmigo."


def test_a_demoted_owner_is_denied_in_spanish(bay: Bay, south: Location, owner: Phone) -> None:
    page = owner.say("/people")
    bay.people.change_role(owner.person, south.number, "technician", "test", bay.clock())
    owner.press("Olga (dueño)", on=page)
    assert owner.notice == "Eso solo lo puede hacer un dueño de este taller."


def test_a_member_is_told_of_a_new_role_in_the_language_of_that_location(bay: Bay, south: Location) -> None:
    olga = bay.phone("Olga", owner=bay.location("North"))
    bay.let_in(olga, south, "owner")
    ben = bay.phone("Ben", technician=south)
    bay.people.stand(olga.person, bay.people.memberships(olga.person)[0].location.number)
    page = olga.say("/people")
    for label in ("Sur", "Ben (technician)", "Make curator"):
        olga.press(label, on=page)
    assert ben.last.text == "Usted ahora es encargado del libro en Sur."
    assert "Ben is curator at Sur now." in page.text

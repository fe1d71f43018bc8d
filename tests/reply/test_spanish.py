"""Spanish replies of every kind of outcome, word for word; the values in them are those of the book."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from desk import Desk, shown
from every_outcome import EXPLAINED, ONDREL, OPTIONS

from benchbot.outcomes import Answer, Calculation, Choose, Finding, Gap, Missing, Option, Other, Outcome, Subject
from benchbot.reply.compose import compose
from benchbot.reply.reply import Reply
from benchbot.reply.why import why
from benchbot.understanding.reading import Reading, WordNote
from benchbot.vocabulary.terms import Caution, Vocabulary

Make = Callable[..., Finding]


@pytest.fixture
def said(vocabulary: Vocabulary) -> Callable[..., Reply]:
    def _said(outcome: Outcome, reading: Reading | None = None, gap: int | None = None, first: bool = False) -> Reply:
        return compose(outcome, reading or Reading(), gap, vocabulary, first, "es")

    return _said


def labels(reply: Reply) -> list[str]:
    return [choice.label for choice in reply.choices]


def test_an_answer(finding: Make, said: Callable[..., Reply]) -> None:
    one = finding(reuse="replace", condition="dry, wheels on the ground", order="crisscross")
    reply = said(Answer((one,), said_values=("80",)), first=True)
    assert reply.text() == (
        "Usted dijo 80. El libro dice: poner pieza nueva, en seco, ruedas en el piso: 88 lb-ft = 119 N·m (convertido)\n"
        "2018 Brackwell Ondrel, motor 1.6, caliper bracket bolt (tornillo del soporte del caliper) ADELANTE, torque\n"
        "Orden de apriete: en cruz.\n"
        "Primero: Suele ser de un solo uso.\n"
        "Precaución: La manguera nunca carga el caliper.\n"
        "Fuente: Invented sheet 14-8, p. 168; verificado por demo lead el 2026-01-05.\n"
        "La hoja del fabricante va primero."
    )
    assert reply.short == (
        "poner pieza nueva, en seco, ruedas en el piso: 88 lb-ft (119 N·m convertido) - 2018 Brackwell Ondrel, motor "
        "1.6, caliper bracket bolt (tornillo del soporte del caliper) ADELANTE, torque"
    )


def test_what_stands_behind_more(finding: Make, said: Callable[..., Reply]) -> None:
    one = finding(thread="M12x1.5", strength_class="10.9", review_by="2030-01-31")
    assert said(Answer((one,))).more_text() == (
        "También 1056 lb-in, 12.2 kgf·m (convertido).\n"
        "Rosca M12x1.5.\n"
        "Clase 10.9.\n"
        "Fila T0001, revisión 2, vale para 2014-2020.\n"
        "Se debe verificar otra vez a más tardar el 2030-01-31."
    )


def test_two_figures_of_two_sources_and_what_is_missing(finding: Make, said: Callable[..., Reply]) -> None:
    socket = finding(spec="T0002", property="socket", value="16 mm", source="Invented sheet 15", source_ref="")
    missing = Missing("position not held", "", replace(ONDREL, years=(2014, 2018)))
    assert said(Answer((finding(), socket), (missing,)), gap=12).text() == (
        "torque: 88 lb-ft = 119 N·m (convertido)\n"
        "dado: 16 mm\n"
        "2018 Brackwell Ondrel, motor 1.6, caliper bracket bolt (tornillo del soporte del caliper) ADELANTE\n"
        "Primero: Suele ser de un solo uso.\n"
        "Precaución: La manguera nunca carga el caliper.\n"
        "Fuente de torque: Invented sheet 14-8, p. 168; verificado por demo lead el 2026-01-05.\n"
        "Fuente de dado: Invented sheet 15; verificado por demo lead el 2026-01-05.\n"
        "No está en nuestro libro: 2014 o 2018 Brackwell Ondrel, motor 1.6, axle nut (tuerca de la flecha) ATRÁS, "
        "torque. Ninguna fila verificada es para esa posición.\n"
        "Anotado con el núm. 12 para quien lleva el libro. No voy a estimar."
    )


def test_stages_and_a_second_printed_value(finding: Make, said: Callable[..., Reply]) -> None:
    staged = said(Answer((finding(value="132 lb-ft; rotate; 263 lb-ft", reuse="reuse"),))).text().splitlines()
    assert staged[0] == "132 lb-ft; rotate; 263 lb-ft = 179 N·m; rotate; 357 N·m (convertido)"
    assert staged[2:4] == [
        "Todas las etapas van juntas, en este orden.",
        "Tornillo o tuerca: se puede reusar.",
    ]
    printed = said(Answer((finding(value="9 N·m", second_value="80 lb-in"),))).text().splitlines()
    assert printed[0] == "9 N·m (80 lb-in, como también lo imprime la fuente) = 6.6 lb-ft (convertido)"


@pytest.mark.parametrize(
    ("condition", "reuse", "flags"),
    [
        ("Dry", "", "en seco: "),
        ("threadlocker", "replace", "poner pieza nueva, con fijador de roscas: "),
        ("", "reuse with new washers", "reusar con arandelas nuevas: "),
        # what has no word in this language stands as the curator entered it, and whole
        ("wet", "", "wet: "),
        ("dry, left-hand thread", "", "dry, left-hand thread: "),
        ("", "reuse twice at most", "reuse twice at most: "),
    ],
)
def test_conditions(finding: Make, said: Callable[..., Reply], condition: str, reuse: str, flags: str) -> None:
    reply = said(Answer((finding(condition=condition, reuse=reuse),)))
    assert reply.text().splitlines()[0] == f"{flags}88 lb-ft = 119 N·m (convertido)"
    assert reply.short.startswith(f"{flags}88 lb-ft")


def test_a_question_back(said: Callable[..., Reply]) -> None:
    subject = Subject("Brackwell", "Ondrel", (2018,), (), "caliper bracket bolt or caliper slide pin bolt")
    assert said(Choose("axle", "", "", OPTIONS, subject)).text() == (
        "¿Adelante o atrás?\n"
        "2018 Brackwell Ondrel, caliper bracket bolt (tornillo del soporte del caliper) o caliper slide pin bolt "
        "(tornillo del perno guía del caliper)\n"
        "1  adelante\n"
        "2  atrás"
    )


def test_a_question_of_the_knowledge_and_one_that_only_english_has(said: Callable[..., Reply]) -> None:
    known = said(Choose("component", "", "Lower or upper ball joint?", OPTIONS, Subject()))
    assert known.text().splitlines()[0] == "¿Rótula inferior o superior?"
    unknown = said(Choose("component", "", "Which bolt of the shop's own words?", OPTIONS, Subject()))
    assert unknown.text().splitlines()[0] == "¿Qué pieza?"


@pytest.mark.parametrize(
    ("label", "states", "shown_as"),
    [
        ("lower", {"height": "lower"}, "abajo"),
        ("inner", {"depth": "inner"}, "interior"),
        ("left", {"side": "left"}, "izquierda"),
        ("machine-to thickness", {"property": "machine-to thickness"}, "límite de rectificado"),
        ("brake pad", {"component": "brake pad"}, "brake pad (balata, pastilla)"),
        ("lifter guide bolt", {"component": "lifter guide bolt"}, "lifter guide bolt"),
        ("another (type it)", {"typed": True}, "otro (escríbalo)"),
        ("leave out “blue ones”", {"ignore": True}, "no tomar en cuenta “blue ones”"),
        ("built up to 2016-05", {"stated": ["build", "..2016-05"]}, "fabricado hasta 2016-05"),
        ("built from 2016-06", {"stated": ["build", "2016-06.."]}, "fabricado desde 2016-06"),
        ("heavy duty", {"stated": ["brakes", "heavy duty"]}, "heavy duty"),
        ("front upper, engine=1.6, 2015-2019", {"row": "T1"}, "adelante arriba, engine=1.6, 2015-2019"),
        ("2015-2019", {"row": "T1"}, "2015-2019"),
        ("2015-2019", {"years": [2015, 2019]}, "2015-2019"),
        ("Front Upper", {"vehicle": ["Front", "Upper"]}, "Front Upper"),
        ("lb-in", {"text": "80 lb-in to N·m"}, "lb-in"),
    ],
)
def test_choices(said: Callable[..., Reply], label: str, states: dict[str, object], shown_as: str) -> None:
    choose = Choose("row", "blue ones", "", (Option(label, states, ()),), Subject())
    assert labels(said(choose)) == [shown_as]
    assert said(choose).choices[0].states == states


def test_english_labels_are_those_of_the_options(vocabulary: Vocabulary) -> None:
    options = (Option("built from 2016-06", {"stated": ["build", "2016-06"]}, ()), Option("any", {"typed": True}, ()))
    reply = compose(Choose("qualifier", "build", "", options, Subject()), Reading(), None, vocabulary, False)
    assert labels(reply) == ["built from 2016-06", "any"]


def test_a_gap(said: Callable[..., Reply]) -> None:
    built = Subject("Brackwell", "Ondrel", (2018,), (("build", "2016-06..2017-01"), ("drive", "4WD")), "axle nut")
    assert said(Gap((Missing("qualifier not held", "", built),)), gap=7).text() == (
        "No está en nuestro libro: 2018 Brackwell Ondrel, fabricado de 2016-06 a 2017-01, tracción 4WD, axle nut "
        "(tuerca de la flecha). Ninguna fila verificada es para ese motor, tracción, frenos o lo que más se haya "
        "dicho.\n"
        "Anotado con el núm. 7 para quien lleva el libro. No voy a estimar."
    )
    handled = replace(ONDREL, property="reuse or thread treatment")
    assert "si se puede reusar o con qué va la rosca." in said(Gap((Missing("property not held", "", handled),))).text()


def test_a_sum(said: Callable[..., Reply]) -> None:
    assert said(Calculation("108 N·m", "79.7 lb-ft", "1 N·m = 0.737562 lb-ft")).text() == (
        "108 N·m = 79.7 lb-ft\nCalculado (1 N·m = 0.737562 lb-ft). No es especificación de ningún vehículo."
    )


def test_a_vehicle_set(said: Callable[..., Reply]) -> None:
    assert said(Other("vehicle set", Subject("Brackwell", "Ondrel"), ("axle nut", "tone ring"))).text() == (
        "Brackwell Ondrel: ¿qué dato necesita?\n"
        "El libro tiene: axle nut (tuerca de la flecha), tone ring.\n"
        "Diga el año modelo cuando pregunte."
    )


def test_words_that_could_not_be_placed_and_spellings_put_right(said: Callable[..., Reply]) -> None:
    spelt = (
        WordNote("ondrell", "vehicle", "ondrell", "spelling"),
        WordNote("brkket", "component", "caliper bracket bolt", "spelling"),
        WordNote("rea", "position", "rear", "spelling"),
        WordNote("tork", "property", "torque", "heard"),
        WordNote("deisel", "qualifier", "engine diesel", "spelling"),
    )
    reply = said(Choose("axle", "", "", OPTIONS, ONDREL), Reading(notes=spelt))
    assert reply.text().splitlines()[2:7] == [
        "Leí “ondrell” como Brackwell Ondrel.",
        "Leí “brkket” como caliper bracket bolt (tornillo del soporte del caliper).",
        "Leí “rea” como atrás.",
        "Leí “tork” como torque.",
        "Leí “deisel” como motor diesel.",
    ]
    lost = said(Other("not understood"), Reading(left_over=("blorp",)))
    assert lost.text() == "No sé qué es “blorp”.\nNo entendí. Diga año, marca y modelo, la pieza, adelante o atrás."


def test_why_explains_every_word() -> None:
    both = (
        "caliper bracket bolt (tornillo del soporte del caliper) o caliper slide pin bolt (tornillo del perno guía del "
        "caliper)"
    )
    assert why(EXPLAINED, "es") == (
        "Así leí su mensaje:\n"
        "  “15”: año modelo 2015\n"
        "  “ondrell”: vehículo (ortografía corregida)\n"
        "  “1.6”: motor 1.6\n"
        "  “frt”: dónde: adelante\n"
        f"  “calliper bolt”: pieza: {both} (otra forma de escribirlo)\n"
        "  “tork”: dato: torque (como lo escribe el dictado o el autocorrector)\n"
        "  “tq”: dato: torque (abreviatura)\n"
        "  “apriete”: dato: torque (español)\n"
        "  “nm”: unidad N·m\n"
        "  “80”: un valor que usted dice\n"
        "  “2”: no se toma en cuenta: una cantidad\n"
        "  “plese”: no se toma en cuenta (una palabra común mal escrita)\n"
        "  “next”: dirige el mensaje: el siguiente vehículo\n"
        "  “blorp”: no lo entendí, así que no muestro ningún valor\n"
        "  “27”: no lo entendí (un número junto al vehículo), así que no muestro ningún valor\n"
        "  “odd”: no se toma en cuenta (some other way)\n"
        "El vehículo está nombrado completo.\n"
        f"Se preguntó: adelante, {both}, torque.\n"
        f"“{both}” tiene dos significados en el taller, así que pregunto aunque el libro tenga solo uno.\n"
        "No se nombró ningún dato; de esta pieza se entiende torque."
    )
    negated = Reading(notes=(WordNote("sport", "noise", "said not to be so: a price"),))
    assert "no se toma en cuenta: se dijo que no es así: a price" in why(negated, "es")
    built = Reading(notes=(WordNote("built", "qualifier", "built 2016-05"),))
    assert "“built”: fabricado en 2016-05" in why(built, "es")


def test_a_book_without_spanish_cautions_still_warns(finding: Make, vocabulary: Vocabulary) -> None:
    older = {name: Caution(name, one.text, one.first) for name, one in vocabulary.cautions.items()}
    book = replace(vocabulary, cautions=older)
    lines = compose(Answer((finding(),)), Reading(), None, book, True, "es").text().splitlines()
    assert "Primero: Often a one-time fastener." in lines
    assert "Precaución: The hose never carries the caliper." in lines
    assert lines[-1].startswith("La información de servicio vigente del fabricante")


@pytest.mark.parametrize("typed", ["adelante", "Adelante", "front", "delantero", "1"])
def test_a_choice_is_taken_in_either_language(desk: Desk, typed: str) -> None:
    chat = desk.chat()
    asked = chat.say("2012 ondrel caliper bracket bolt")
    assert isinstance(asked.outcome, Choose)
    vocabulary = desk.conversation.lexicon.vocabulary
    assert labels(compose(asked.outcome, asked.reading, None, vocabulary, False, "es")) == ["adelante", "atrás"]
    assert shown(chat.say(typed)) == shown(desk.ask("2012 ondrel front caliper bracket bolt")) != []

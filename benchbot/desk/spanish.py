"""The desk's sentences in Spanish, as North American shops speak it: common practice, no source."""

from __future__ import annotations

from benchbot.desk.wording import Wording
from benchbot.people.names import LONGEST
from benchbot.people.register import HOURS_AT_MOST
from benchbot.people.rights import ASK_FOR_AN_INVITE, CURATORS_ONLY, IN_PRIVATE, NOT_DONE_HERE, OWNERS_ONLY

_NO_WAY_IN = "Este código no sirve. Pida otra invitación a su taller."
_OUTSIDE = "Pida una invitación a su taller."
_MAKER_FIRST = (
    "La información de servicio vigente del fabricante del vehículo, los códigos locales y la práctica profesional "
    "autorizada van primero."
)

SPANISH = Wording(
    language="es",
    refusals={
        "unknown location": "No hay ningún taller así.",
        "name unfit": f"Dé un nombre de 1 a {LONGEST} caracteres que se puedan ver todos.",
        "name taken": "Ya hay un taller con ese nombre.",
        "setting unfit": f"Ese valor no se puede poner. Horas: un número entero, de 1 a {HOURS_AT_MOST}.",
        "not a member": "No es miembro de ese taller.",
        "last owner": "Un taller se queda al menos con un dueño. Haga dueño a alguien más primero.",
        "no first location": "Ya hay un taller; un dueño puede agregar otro.",
        "unknown invite": "No hay ninguna invitación así.",
        "already revoked": "Esa invitación ya estaba anulada.",
        # one wording for every reason: whoever tries codes learns nothing from it
        "code unknown": _NO_WAY_IN,
        "code expired": _NO_WAY_IN,
        "code revoked": _NO_WAY_IN,
        "code used up": _NO_WAY_IN,
        "code overruled": _NO_WAY_IN,
    },
    denials={
        ASK_FOR_AN_INVITE: _OUTSIDE,
        OWNERS_ONLY: "Eso solo lo puede hacer un dueño de este taller.",
        CURATORS_ONLY: "Eso solo lo puede hacer el encargado del libro o un dueño de este taller.",
        IN_PRIVATE: "Hágalo en un chat privado conmigo.",
        NOT_DONE_HERE: "Eso no lo sé hacer.",
    },
    # to whoever is no member
    outside=_OUTSIDE,
    code_refused=_NO_WAY_IN,
    nobody="No veo quién pregunta. Escriba como usted mismo, no en nombre del grupo.",
    # joining and greeting
    joined="Ya está dentro: {role} en {location}.",
    raised="Ahora es {role} en {location}.",
    joined_before="Ya pertenece a {location}, como {role}.",
    greeting="{name}, usted está en {location} ({role}).",
    greeting_which="{name}, usted pertenece a {count} talleres. ¿En cuál está?",
    ask_away="Pida un dato: año, marca y modelo, la pieza, adelante o atrás.",
    maker_first=_MAKER_FIRST,
    roles_technician="técnico",
    roles_curator="encargado del libro",
    roles_owner="dueño",
    # help
    help_head="Pregunte por un vehículo y una pieza. Por ejemplo:",
    help_rules="Nunca adivino: pregunto lo que decide el valor, y lo que no está en el libro pasa a su encargado.",
    help_words="Las opciones se tocan o se escriben. Si corrige una pregunta, cambia su respuesta.",
    unknown_command="No conozco /{command}. /help dice qué puedo hacer.",
    ask_what="Escriba la pregunta detrás: /ask año, marca y modelo, la pieza, adelante o atrás.",
    menu_start="Entrar con un código de su taller",
    menu_ask="Pedir un dato",
    menu_vehicle="Vehículo en el elevador",
    menu_location="En qué taller estoy",
    menu_help="Cómo preguntar",
    menu_people="Miembros de un taller",
    menu_invite="Invitar a alguien",
    menu_locations="Talleres y sus ajustes",
    # buttons of an answer, and what presses are answered with
    other_unit="Otra unidad",
    more="Más",
    less="Menos",
    how_read="Cómo lo leí",
    not_right="¿Está mal?",
    pressed_old="Esa pregunta está cerrada. Pregunte otra vez.",
    pressed_done="Eso ya está respondido.",
    pressed_foreign="Eso es de {name}. Haga su propia pregunta.",
    pressed_foreign_unnamed="Eso es de otra persona. Haga su propia pregunta.",
    pressed_gone="Eso es demasiado viejo. Pregunte otra vez.",
    book_changed="El libro cambió desde entonces. Pregunte otra vez.",
    changed_mark="Cambiado: leído otra vez después de su corrección.",
    changed_ask_anew="El chat siguió adelante: para elegir, pregunte en un mensaje nuevo.",
    # not right?
    note_ask="¿Qué está mal? Escríbalo en una línea; le llega al encargado del libro.",
    note_line="Usted marcó esto como incorrecto. No lo use hasta que lo revise el encargado del libro.",
    note_again="Eso ya lo había marcado.",
    note_kept="El encargado del libro ya tiene la nota {number}. Gracias.",
    note_skip="Sin comentario",
    note_told="{name} ({location}) marcó una respuesta como incorrecta, nota {number}:",
    note_words="Sobre la nota {number}:",
    # what cannot be answered as it came
    media="Solo leo texto. Escriba año, marca y modelo, la pieza, adelante o atrás.",
    late=(
        "No estaba. Lo que se preguntó hace más de cinco minutos queda sin respuesta: pregunte otra vez lo que aún "
        "necesite."
    ),
    too_many="Es más de lo que puedo atender a la vez. Espere un minuto y pregunte otra vez.",
    fault="Algo falló de mi lado y quedó anotado. Pregunte otra vez; si sigue igual, avise al encargado del libro.",
    again_gone="Ese mensaje ya no se guarda. Pregunte otra vez.",
    # the vehicle on the lift
    lift_now="En el elevador: {vehicle}.",
    lift_none="No hay ningún vehículo en el elevador. Diga uno con su año: /vehicle 15 marca modelo.",
    lift_asked_again="Pregunto otra vez después de {hours} h, o cuando se nombre otro vehículo.",
    lift_change="Cambiar a:",
    lift_clear="Vaciar",
    # where one stands
    stand_which="¿En qué taller está?",
    stand_now="Está en {location} ({role}).",
    stand_only="Está en {location} ({role}). Es el único taller al que pertenece.",
    # locations
    locations_head="Sus talleres",
    locations_none="No es dueño de ningún taller.",
    location_add="Agregar un taller",
    location_ask_name="¿Cómo se llama el taller nuevo? Escriba su nombre.",
    location_added="{location} ya está, y usted es su dueño.",
    location_line="{members} miembros · {invites} invitaciones abiertas",
    location_settings="Unidades primero: {units} · idioma: {language} · vehículo guardado {hours} h",
    location_rename="Cambiar nombre",
    location_ask_rename="¿Cómo se va a llamar {location}? Escriba el nombre nuevo.",
    location_renamed="Ahora se llama {location}.",
    location_units="Unidades",
    location_language="Idioma",
    location_hours="Guardar vehículo",
    location_members="Miembros",
    location_invite="Invitar",
    location_invites="Invitaciones abiertas",
    # "atrás" is where the rear axle is
    back="Volver",
    cancel="Cancelar",
    units_which="¿Qué unidad va primero después del valor de la fuente?",
    units_source="Como está en el libro",
    units_metric="N·m, mm, L",
    units_us="lb-ft, in, qt",
    language_which="¿Qué idioma se habla en {location}?",
    hours_which="¿Después de cuántas horas pregunto otra vez qué vehículo está en el elevador?",
    # members
    members_head="Miembros de {location}",
    members_which="¿Miembros de qué taller?",
    member_line="{name}: {role}, desde {since}",
    member_role="Hacer {role}",
    member_remove="Quitar",
    member_remove_sure="¿Quitar a {name} de {location}? Desde entonces no le respondo nada.",
    member_remove_yes="Sí, quitar",
    member_removed="{name} ya no está en {location}.",
    member_changed="{name} ahora es {role} en {location}.",
    member_told_role="Usted ahora es {role} en {location}.",
    member_gone="Ya no es miembro.",
    next_page="Siguiente",
    previous_page="Anterior",
    # invites
    invite_where="¿Invitar a qué taller?",
    invite_role="¿A quién invita a {location}?",
    invite_kind="Una invitación como {role} a {location}: ¿para cuántos?",
    invite_one="Una persona, 2 días",
    invite_wall="En la pared: 20 personas, 30 días",
    invite_title="Benchbot en {location}",
    invite_caption="Escanee para entrar a {location} como {role}, o abra {link}",
    invite_by_hand="O escriba este código a @{bot}: {code}",
    invite_until="Para {uses}, hasta {until} UTC.",
    invite_uses_one="una persona",
    invite_uses_many="{count} personas",
    invite_revoke="Anular",
    invite_revoked="Anulada. Ya nadie puede entrar con ella.",
    invites_none="No hay ninguna invitación abierta a {location}.",
    invites_head="Invitaciones abiertas a {location}",
    invite_line="{shown}…: {role}, quedan {uses}, hasta {until} UTC",
    invite_made="La invitación está abajo. Mándela, o imprímala y péguela en la pared.",
)

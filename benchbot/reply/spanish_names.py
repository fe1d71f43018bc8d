"""What Spanish-speaking technicians call figures, places and conditions, and what the rooms before say in English."""

from __future__ import annotations

from benchbot.reply.spanish_parts import PARTS
from benchbot.reply.spanish_questions import QUESTIONS
from benchbot.reply.spanish_sums import QUESTIONS as SUM_QUESTIONS
from benchbot.reply.wording import Names

# Common practice in North American shops, no source.
_PROPERTIES = {
    "torque": "torque",
    "socket": "dado",
    "thread": "rosca",
    "minimum thickness": "espesor mínimo",
    "nominal thickness": "espesor nominal",
    "machine-to thickness": "límite de rectificado",
    "maximum diameter": "diámetro máximo",
    "maximum runout": "descentrado máximo",
    "maximum thickness variation": "variación de espesor máxima",
    "capacity": "capacidad",
    "fluid": "tipo",
    "gap": "separación",
    "pressure": "presión",
    "note": "nota",
    "reuse or thread treatment": "si se puede reusar o con qué va la rosca",
}

# Words without gender, as a position stands behind parts of either ("balata", "tornillo").
_POSITIONS = {
    "front": "adelante",
    "rear": "atrás",
    "upper": "arriba",
    "lower": "abajo",
    "left": "izquierda",
    "right": "derecha",
    "inner": "interior",
    "outer": "exterior",
    "side": "un lado",
    "r?": "atrás o derecha",
    "and": "y",
}

_KEYS = {
    "engine": "motor",
    "drive": "tracción",
    "brakes": "frenos",
    "body": "carrocería",
    "trim": "versión",
    "axle": "eje",
    "transmission": "transmisión",
    "market": "mercado",
}

_THREADLOCKER = "con fijador de roscas"
_ANTI_SEIZE = "con antiaferrante"
_NO_FILTER = "sin filtro"
_LUBED = "con lubricante"
# "wet" is left as it is: of threads it means lubricated, which no one Spanish word says.
_CONDITIONS = {
    "dry": "en seco",
    "dry threads": "rosca seca",
    "oiled": "con aceite",
    "lubed": _LUBED,
    "lubricated": _LUBED,
    "greased": "con grasa",
    "loctite": "con Loctite",
    "threadlocker": _THREADLOCKER,
    "thread locker": _THREADLOCKER,
    "anti seize": _ANTI_SEIZE,
    "antiseize": _ANTI_SEIZE,
    "never seize": _ANTI_SEIZE,
    "unloaded": "sin carga",
    "loaded": "con carga",
    "with filter": "con filtro",
    "without filter": _NO_FILTER,
    "no filter": _NO_FILTER,
    "excluding filter": _NO_FILTER,
    "without the filter": _NO_FILTER,
    "minus filter": _NO_FILTER,
    "wheels on the ground": "ruedas en el piso",
    "at ride height": "a altura de marcha",
    "cold": "en frío",
    "cold engine": "motor frío",
    "lining only": "solo el material de fricción",
    "service mode on": "modo de servicio activado",
}

_HANDLING = {
    "reuse with new washer": "reusar con arandela nueva",
    "reuse with new washers": "reusar con arandelas nuevas",
}

_ORDERS = {"crisscross": "en cruz", "star": "en estrella", "star pattern": "en estrella"}

_REASONS = {
    "a bound or a guess, not the model year": "un límite o una suposición, no el año modelo",
    "a component that nobody taught me": "una pieza que nadie me enseñó",
    "a conditions": "una condición",
    "a count": "una cantidad",
    "a figure that fills no slot": "un número que no corresponde a nada",
    "a idiom": "una expresión",
    "a mileage, time or price": "un millaje, un tiempo o un precio",
    "a number beside the vehicle": "un número junto al vehículo",
    "a phone number or date": "un teléfono o una fecha",
    "a thread": "una rosca",
    "a price": "un precio",
    "a tool": "una herramienta",
    "a value you state": "un valor que usted dice",
    "a wheel size": "una medida de rueda",
    "adds nothing here": "aquí no agrega nada",
    "may be a longer model's name misspelt": "puede ser el nombre de un modelo más largo, mal escrito",
    "may belong to another model's name": "puede ser parte del nombre de otro modelo",
    "may belong to the component": "puede ser parte del nombre de la pieza",
    "a question about the work": "una pregunta sobre el trabajo",
    "next vehicle": "el siguiente vehículo",
    "said again, or too general to add anything": "dicho otra vez, o demasiado general para agregar algo",
    "said not to be so": "se dijo que no es así",
    "same": "lo mismo",
    "says only that the part is new": "solo dice que la pieza es nueva",
    "the number of an order, bay, phone ...": "el número de una orden, un puesto, un teléfono ...",
    "the year of something else": "el año de otra cosa",
}

NAMES = Names(
    parts=PARTS,
    properties=_PROPERTIES,
    positions=_POSITIONS,
    keys=_KEYS,
    conditions=_CONDITIONS,
    handling=_HANDLING,
    orders=_ORDERS,
    reasons=_REASONS,
    questions={**QUESTIONS, **SUM_QUESTIONS},
    typed="otro (escríbalo)",
    leave_out="no tomar en cuenta “{words}”",
)

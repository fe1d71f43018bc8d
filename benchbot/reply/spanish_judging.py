"""The Spanish sentences about what was measured; what is unsafe is said first in each."""

from __future__ import annotations

from benchbot.reply.wording import Words

JUDGING: Words = {
    # thickness of a rotor, pad or shoe
    "below the limit": "NO USAR: {measured} está {margin} por debajo del límite de descarte de {limit}.",
    "far below the limit": "NO USAR: {measured} está muy por debajo del límite de descarte de {limit}, por {margin}. "
    "Si no puede ser, mida otra vez.",
    "at the limit": "NO USAR: {measured} es exactamente el límite de descarte de {limit}. No queda nada por gastar.",
    "between the limits": "NO RECTIFICAR: {measured} está {short} por debajo del límite de rectificado de {machine}. "
    "Se puede usar como está: {margin} por encima del límite de descarte de {limit}.",
    "at the machine-to limit": "NO RECTIFICAR: {measured} es exactamente el límite de rectificado de {machine}. "
    "Se puede usar como está: {margin} por encima del límite de descarte de {limit}.",
    "above both limits": "SE PUEDE USAR: {measured} está {margin} por encima del límite de descarte de {limit}. Se "
    "puede rectificar, a lo más {cut}, hasta {machine}.",
    "above the limit": "SE PUEDE USAR: {measured} está {margin} por encima del límite de descarte de {limit}.",
    "above new": "MIDA OTRA VEZ: {measured} es {margin} más que nuevo, {nominal}.",
    "far above the limit": "MIDA OTRA VEZ: {measured} es mucho más de lo que tiene una pieza así; su límite de "
    "descarte es {limit}.",
    "limits contradict": "SIN DICTAMEN sobre {measured}: los límites del libro se contradicen.",
    # diameter of a drum
    "over the diameter": "NO USAR: {measured} está {margin} por encima del diámetro máximo de {limit}.",
    "far over the diameter": "NO USAR: {measured} está muy por encima del diámetro máximo de {limit}, por {margin}. "
    "Si no puede ser, mida otra vez.",
    "at the diameter": "NO USAR: {measured} es exactamente el diámetro máximo de {limit}. No queda nada por gastar.",
    "under the diameter": "SE PUEDE USAR: {measured} está {margin} por debajo del diámetro máximo de {limit}.",
    "far under the diameter": "MIDA OTRA VEZ: {measured} está muy por debajo del diámetro máximo de {limit}.",
    # runout and thickness variation
    "runout over": "DEMASIADO ALABEO: {measured} está {margin} por encima del límite de {limit}.",
    "runout at": "ALABEO PERMITIDO: {measured} es exactamente el límite de {limit}.",
    "runout within": "ALABEO PERMITIDO: {measured} está {margin} por debajo del límite de {limit}.",
    "variation over": "DEMASIADA VARIACIÓN DE ESPESOR: {measured} está {margin} por encima del límite de {limit}.",
    "variation at": "VARIACIÓN DE ESPESOR PERMITIDA: {measured} es exactamente el límite de {limit}.",
    "variation within": "VARIACIÓN DE ESPESOR PERMITIDA: {measured} está {margin} por debajo del límite de {limit}.",
    # what follows
    "replace as a pair": "Cámbielo en los dos lados del eje, en par.",
    "before a rotor is blamed": "Antes de culpar al disco: limpie la cara de la maza, asiente el disco con sus "
    "tuercas, revise el juego del balero, gírelo a otro birlo y mida otra vez.",
    "variation cannot stay": "Se va a sentir en el pedal. Rectifique los dos lados del eje donde el espesor lo "
    "permita; si no, cambie el par.",
    "wrong part or wrong figure": "¿Mal medido (cero de la herramienta, ceja del borde, óxido), o no es la pieza de "
    "esta fila? Compare número de parte y diámetro antes de montarla.",
    "ask your lead": "No decida con eso: pregunte a su técnico líder.",
    "machine both sides": "Si se rectifica, los dos lados del eje, y mida después del corte.",
    "no machine-to held": "El libro no tiene límite de rectificado para esto: nada aquí permite rectificar.",
    "thinnest counts": "De varias lecturas cuenta la peor.",
    "lining or plate": "La fila no dice si cuenta la balata sola o con su placa: vea su fuente y compare lo mismo con "
    "lo mismo.",
    "with plate": "SIN DICTAMEN sobre {measured}: se midió con su placa, y el límite cuenta la balata sola. Mida la "
    "balata.",
    "the figure alone": "Eso es solo la medida. Grietas, surcos, puntos de calor, aceite o balata suelta se juzgan "
    "aparte.",
    "read as": "{figures} leído en {unit}: una pieza así no lo tiene en otra unidad. Diga si era otra.",
    # several parts in one message
    "part by itself": "SIN DICTAMEN: {figures} de {part}. Mande esa pieza en un mensaje aparte, con su unidad.",
    "one part at a time": "SIN DICTAMEN: su mensaje tiene medidas de varias piezas. Mande cada pieza en un mensaje "
    "aparte, con su unidad.",
    # places
    "where left": "izquierda",
    "where right": "derecha",
    "where driver": "lado del conductor",
    "where passenger": "lado del pasajero",
    "where inner": "interior",
    "where outer": "exterior",
    "where front": "delante",
    "where rear": "atrás",
}
"""Name of a sentence -> its wording; the blanks are filled with figures and their units."""

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
    # damage that was said beside the figure
    "cracked rotor": "NO USAR antes de que lo vea su técnico líder: usted dijo “{said}”. Una grieta que siente la "
    "uña, o "
    "que llega a un borde o a un agujero, condena el disco, tenga el espesor que tenga.",
    "cracked drum": "NO USAR antes de que lo vea su técnico líder: usted dijo “{said}”. Una grieta que siente la uña, "
    "o "
    "que llega a un borde o a un agujero, condena el tambor, tenga el diámetro que tenga.",
    "face of a face": "NO USAR antes de que lo vea su técnico líder: usted dijo “{said}”. Surcos hondos, manchas "
    "azules "
    "duras o venas oxidadas: dentro de los límites se rectifica; si no, se cambia. La medida sola no decide.",
    "soaked of a face": "NO USAR antes de que lo vea su técnico líder: usted dijo “{said}”. Busque de dónde viene el "
    "aceite, la grasa o el líquido; la balata que lo absorbió se cambia en todo el eje.",
    "cracked lining": "NO USAR antes de que lo vea su técnico líder: usted dijo “{said}”. Una balata agrietada, o "
    "suelta "
    "de su placa, condena el juego, tenga el espesor que tenga.",
    "soaked lining": "NO USAR, y enséñelo a su técnico líder: usted dijo “{said}”. La balata que absorbió aceite, "
    "grasa "
    "o líquido de frenos se cambia en todo el eje; limpiarla no la repara. Busque de dónde viene.",
    "damaged": "NO USAR antes de que lo vea su técnico líder: usted dijo “{said}”. El daño decide antes que la medida.",
    "above, figure alone": "SOLO LA MEDIDA: {measured} está {margin} por encima del límite de descarte de {limit}.",
    "under, figure alone": "SOLO LA MEDIDA: {measured} está {margin} por debajo del límite de {limit}.",
    "at, figure alone": "SOLO LA MEDIDA: {measured} es exactamente el límite de {limit}.",
    # little left, or less than was read
    "nearly worn": "SOBRE EL LÍMITE por {margin}, casi gastado: {measured}, límite de descarte {limit}. Prepare el par "
    "del eje y enséñelo a su técnico líder.",
    "nearly worn, no machining": "SOBRE EL LÍMITE por {margin}, casi gastado, no rectificar: {measured}, límite de "
    "descarte {limit}, límite de rectificado {machine}. Prepare el par del eje y enséñelo a su técnico líder.",
    "nearly worn, diameter": "BAJO EL LÍMITE por {margin}, casi gastado: {measured}, diámetro máximo {limit}. Prepare "
    "el par del eje y enséñelo a su técnico líder.",
    "finer than the reading": "SOBRE EL LÍMITE por {margin}, menos que un paso de la lectura: {measured}, límite de "
    "descarte {limit}. Mida más fino. Si sigue así, prepare el par del eje y enséñelo a su técnico líder.",
    "finer than the reading, no machining": "SOBRE EL LÍMITE por {margin}, menos que un paso de la lectura, no "
    "rectificar: {measured}, límite de descarte {limit}, límite de rectificado {machine}. Mida más fino. Si sigue así, "
    "prepare el par del eje y enséñelo a su técnico líder.",
    "finer than the reading, diameter": "BAJO EL LÍMITE por {margin}, menos que un paso de la lectura: {measured}, "
    "diámetro máximo {limit}. Mida más fino. Si sigue así, prepare el par del eje y enséñelo a su técnico líder.",
    # the thickness of a part of which another check has failed
    "above, check failed": "ESPESOR: {measured} está {margin} por encima del límite de descarte de {limit}.",
    "above both, check failed": "ESPESOR: {measured} está {margin} por encima del límite de descarte de {limit}, y "
    "{cut} "
    "por encima del límite de rectificado de {machine}.",
    "no machining, check failed": "NO RECTIFICAR: {measured} no pasa del límite de rectificado de {machine}; el límite "
    "de descarte es {limit}.",
    # what it is to be machined to
    "target below": "NO RECTIFICAR a {measured}: queda {margin} por debajo del límite de rectificado de {machine}.",
    "target within": "A {measured}: {margin} por encima del límite de rectificado de {machine}. Mida después "
    "del corte.",
    "target, figure alone": "SOLO LA MEDIDA: {measured} está {margin} por encima del límite de rectificado de "
    "{machine}.",
    "target without a limit": "NO RECTIFICAR a {measured}: el libro no tiene límite de rectificado para esto.",
    # a limit read off the part
    "stamped decides": "Ese límite está grabado en la pieza; el del libro es {book}, y decide el más estricto.",
    "stamped, no machining": "Ese límite está grabado en la pieza y queda por encima del límite de rectificado del "
    "libro, "
    "{machine}: no rectificar. El límite de descarte del libro es {book}; decide el más estricto.",
    "book decides": "Grabado en la pieza: {stamped}. El límite del libro es el más estricto de los dos y decide.",
    "both the same": "El límite grabado en la pieza es el mismo.",
    "stamped far off": "SIN DICTAMEN sobre {measured}: el límite grabado en la pieza, {stamped}, queda lejos del que "
    "tiene el libro, {limit}. Léalo otra vez, o no es la pieza de esta fila. Pregunte a su técnico líder.",
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
    "whole swing": "De {low} a {high}: cuenta todo el recorrido.",
    "one thickness": "SIN DICTAMEN: {measured} es un solo espesor, no una variación. Mida en varios puntos alrededor "
    "del "
    "disco y mándelos todos.",
    "thickness and variation": "SIN DICTAMEN sobre {measured}: espesores y variaciones juntos. Mande unos u otras.",
    "one reading of the dial": "SIN DICTAMEN: {measured} es una sola lectura del reloj. Mande la más baja y la más "
    "alta "
    "de una vuelta completa.",
    "dial or runouts": "SIN DICTAMEN sobre {measured}: ¿lecturas de una vuelta del reloj, o el alabeo de varios "
    "discos? "
    "Ponga el reloj en cero en lo más bajo y mande lo más alto, o diga izquierda y derecha.",
    # what follows
    "replace as a pair": "Cámbielo en los dos lados del eje, en par.",
    "before a rotor is blamed": "Antes de culpar al disco: limpie la cara de la maza, asiente el disco con sus "
    "tuercas, revise el juego del balero, gírelo a otro birlo y mida otra vez.",
    "variation cannot stay": "Se va a sentir en el pedal. Rectifique los dos lados del eje donde el espesor lo "
    "permita; si no, cambie el par.",
    "variation, new pair": "Se va a sentir en el pedal, y no queda espesor para rectificarlo: cambie el par.",
    "sides differ": "{one} y {other} difieren en {difference}. El lado más delgado arrastra, o el otro no trabaja: "
    "pernos "
    "guía, pistón, manguera, ajustador.",
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

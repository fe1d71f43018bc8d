"""The Spanish sentences of calculations, as North American shops speak it: common practice, no source."""

from __future__ import annotations

from benchbot.reply.wording import Words

SUMS: Words = {
    "set in line": "Ponga la llave en {setting}, con el adaptador en línea con el mango.",
    "set across": "Ponga la llave en {setting}: en ángulo recto el adaptador no cambia nada.",
    "set reversed": "Ponga la llave en {setting}, con el adaptador volteado hacia el mango.",
    "set at an angle": "Ponga la llave en {setting}, con el adaptador a {degrees}° del mango.",
    "got in line": "El tornillo recibió {setting}, con el adaptador en línea con el mango.",
    "got across": "El tornillo recibió {setting}: en ángulo recto el adaptador no cambia nada.",
    "got reversed": "El tornillo recibió {setting}, con el adaptador volteado hacia el mango.",
    "got at an angle": "El tornillo recibió {setting}, con el adaptador a {degrees}° del mango.",
    "other ways round": "En ángulo recto sería {across}, volteado hacia el mango {back}.",
    "across is exact": "Manténgalo en ángulo recto con el mango; cualquier otro ángulo cambia el torque.",
    "measure the levers": "L: del centro del cuadro al centro de la mano. E: del centro del cuadro al centro del "
    "tornillo. Jale del centro de la empuñadura, con una mano.",
    "same unit": "Está en la unidad de su {figure}.",
    "no lever left": "Tan volteado, el adaptador casi no deja palanca y ningún ajuste sirve. Póngalo en ángulo recto o "
    "en línea.",
    "extension": "Ponga la llave en {setting}: una extensión recta no cambia nada.",
    "across any": "En ángulo recto el adaptador no cambia nada: ponga el torque que quiere.",
    "extension any": "Una extensión recta no cambia nada: ponga el torque que quiere.",
    "extension twists": "Manténgala recta y apoyada. Una larga y delgada se tuerce, pero el torque en la punta "
    "es igual.",
    "extension or adapter": "Una pata de gallo o un adaptador que aleja el tornillo del cuadro sí lo cambia: diga su "
    "largo, el de la llave y el torque.",
    "wrench fits": "Sí, {torque} está en el rango de la llave, de {low} a {high}.",
    "wrench below": "No: {torque} está debajo de la primera marca, {low}. Debajo de ella la llave no garantiza nada.",
    "wrench above": "No: {torque} está arriba de la última marca, {high}. No la fuerce.",
    "wrench smaller": "Use una llave más chica, o una marcada en una unidad menor.",
    "wrench larger": "Use una llave más grande. Pasada la última marca se puede romper o perder el ajuste.",
    "click may mean": "Un clic en {setting} puede ser de {least} a {most} (± {percent} %).",
    "any may be off": "Una llave de torque nueva o recién probada puede errar {percent} %.",
    "wrench may be off": "Una llave de torque nueva o recién probada puede errar {large} %; una cuya última marca es "
    "de {small_tool} N·m o menos, {small} %.",
    "as a click wrench": "Eso vale para una llave de clic. Una de aguja puede errar 6 %.",
    "low on the scale": "Es solo {share} % de la última marca. Antes las pruebas empezaban en 20 %, así que una llave "
    "más chica es más segura.",
    "click is the wrench": "Eso es la llave sola. Roscas duras, aceite o un jalón rápido se suman.",
    "only in cal": "Vale para una llave probada en los últimos 12 meses o 5000 clics y que no se cayó.",
    "variation": "Variación de espesor {variation}, en {count} lecturas.",
    "thinnest counts": "Lo más delgado es {thinnest}; eso se compara con los límites.",
    "can only be": "Lo leí en {unit}: ningún disco tiene {figure} de espesor.",
    "few readings": "{count} lecturas son pocas. Mida en 4 a 8 puntos, a la misma distancia de la orilla.",
    "limit of the vehicle": "Si es demasiado lo dice el límite del vehículo. Pídalo con año, marca, modelo y eje.",
    "runout": "Alabeo {runout}, de la lectura más baja a la más alta.",
    "runout is the whole swing": "El alabeo es todo el recorrido de la aguja, no la distancia desde cero.",
    "runout set-up": "Solo vale con el disco sujeto a la maza con sus tuercas y sin juego en el balero.",
    "left": "Quedan {left} hasta el límite.",
    "share left": "Es {share} % de lo que había para gastar, desde {was}.",
    "nothing left": "No queda nada: está en el límite de {limit} o debajo.",
    "at the limit": "No lo regrese a la calle. Balatas y discos se cambian en pares del eje.",
    "lasts": "Unos {far} hasta el límite, con el desgaste de hasta ahora.",
    "lasts between": "Con la exactitud con que se midió: de {least} a {most}.",
    "lasts at least": "Se gastó muy poco para decir más que: por lo menos {least} hasta el límite, con el desgaste de "
    "hasta ahora.",
    "no wear seen": "No se ve desgaste entre las dos medidas, así que no se puede decir cuánto dura.",
    "measure again": "Mida otra vez tras más desgaste, en el mismo lugar y con la misma herramienta.",
    "wear goes on as before": "El desgaste no siempre sigue igual: carga, cuestas o un perno pegado lo cambian. Mida "
    "otra vez antes de la cifra menor.",
    "thinnest place counts": "Cuenta el lugar más delgado; de dos balatas, la más delgada.",
    "no such thickness": "Ninguna balata ni disco mide {figure} de espesor. Diga la cifra otra vez con su unidad.",
    "pads even": "La balata interior y la exterior están iguales.",
    "pad even": "Los dos extremos de la balata están iguales.",
    "inner worn more": "La balata interior es más delgada por {difference}.",
    "outer worn more": "La balata exterior es más delgada por {difference}.",
    "taper": "La balata está gastada en cuña: {difference} de un extremo al otro.",
    "inner worn more points to": "Apunta a un pistón que no regresa (sello, óxido, guardapolvo roto), a un freno de "
    "estacionamiento o una manguera que mantiene presión; o a pernos guía pegados que no dejan mover el caliper.",
    "outer worn more points to": "Apunta a pernos guía o bujes pegados, de modo que el caliper no suelta, o a "
    "la balata exterior apretada en su soporte.",
    "taper points to": "Apunta a un perno guía pegado o gastado, a una balata apretada en un extremo del "
    "soporte, o mal puesta.",
    "find the cause": "Encuentre la causa antes de poner balatas nuevas, y enséñeselo a su encargado.",
    "thinner pad counts": "La balata más delgada es la que se compara con el límite.",
    "thinner end counts": "El extremo más delgado es el que se compara con el límite.",
    "boiling points": "Puntos de ebullición mínimos, seco / húmedo: {points}.",
    "dry and wet": "Seco es líquido nuevo. Húmedo es después de tomar agua, como 3.7 %.",
    "glycol fluid": "{grade} es a base de glicol, a lo más {viscosity} mm²/s a -40 °C.",
    "silicone fluid": "{grade} es a base de silicón, a lo más {viscosity} mm²/s a -40 °C.",
    "five is silicone": "DOT 5 no es DOT 5.1, y nunca van en el mismo sistema.",
    "no limit in service": "La norma es para líquido nuevo; para el que está en uso no pone límite. Deciden el "
    "intervalo del fabricante y la regla del taller.",
    "only up": "Solo hacia arriba: {low} en un sistema {high}: no. {high} en un sistema {low}: sí. Decide el grado del "
    "vehículo.",
    "new and amber": "{grade} nuevo es de incoloro a ámbar.",
    "new and purple": "{grade} nuevo es morado.",
    "colour is no proof": "Se oscurece con el uso y cada fabricante puede variar: el color no prueba el grado.",
    "may mix": "{one} y {other} son los dos de glicol y se pueden mezclar.",
    "never mix": "Nunca: {one} y {other} no se mezclan. Uno es de silicón, el otro de glicol.",
    "reaches": "Solo hacia arriba: {one} en un sistema {other}: sí. Al revés: no.",
    "falls short": "No: {one} hierve más bajo de lo que {other} debe. Nunca menos de lo que pide la tapa.",
    "lower one counts": "Una mezcla no hierve más alto de lo que deja el menor de los dos.",
    "read the cap": "Decide lo que dice la tapa del depósito o el libro para este vehículo; léala primero.",
    "if mixed": "Si ya entró: no pise el pedal, no maneje, enséñeselo a su encargado.",
    "tested above dry": "{tested} llega o pasa lo que {grade} nuevo debe dar seco ({dry}).",
    "tested between": "{tested} está entre lo mínimo de {grade} nuevo húmedo ({wet}) y seco ({dry}): ya tomó agua.",
    "tested below wet": "{tested} está debajo de lo que {grade} debe dar aun húmedo ({wet}). Cámbielo antes de que "
    "salga el vehículo.",
    "hex of a thread": "{thread} según ISO 4014, ISO 4017 (tornillo) e ISO 4032 (tuerca): {hex}.",
    "other hexes": "En la misma rosca según otras normas: {others}.",
    "hex is one of them": "{hex} es uno de los hexágonos de {thread}, pero eso no prueba la rosca.",
    "hex is none of them": "Ninguna de estas normas pone {hex} en {thread}; un fabricante sí puede.",
    "threads of a hex": "De {hex} no sale ninguna rosca. Estas normas lo ponen en {threads}.",
    "hex tells no thread": "El hexágono no dice la rosca: hay cabezas más chicas y más grandes en la misma rosca, y la "
    "fina y la gruesa llevan la misma cabeza.",
    "measure the thread": "Mida el diámetro y use un medidor de paso.",
    "makers differ": "Otras normas y fabricantes varían.",
    "load": "{torque} en {bolt} {strength} aprieta con algo entre {least} y {most}.",
    "load at k": "{torque} en {bolt} {strength} aprieta con {load}, si K es {k}.",
    "one share of proof": "Es {share} % de lo que aguanta sin estirarse para siempre ({proof}).",
    "k is a guess": "K nunca se conoce tan bien: con el usual de {low} a {high} la carga queda lejos a ambos lados.",
    "share of a proof load": "{share} % de la carga de prueba de {bolt} {strength} ({proof}) es {load}.",
    "share of proof": "Es de {least} a {most} % de lo que aguanta sin estirarse para siempre ({proof}); la diferencia "
    "es la fricción.",
    "may overstretch": "Con poca fricción eso estira el tornillo para siempre.",
    "strength": "{bolt} {strength} aguanta {proof} sin estirarse para siempre y se rompe desde {breaking}.",
    "load is no torque": "Eso explica un tornillo. No da ningún torque para un vehículo.",
    "no torque from a thread": "No doy torque para {bolt}: una medida y una clase no lo dicen.",
    "no torque from a list": "No doy torque de una tabla o una regla: ninguna medida y ninguna clase lo dice.",
    "load can be explained": "Lo que un torque le hace a un tornillo sí lo explico: diga rosca, clase y torque.",
    "friction decides": "La fricción decide cuánto de un torque aprieta. Con el K usual de {low} a {high} el mismo "
    "torque aprieta un tornillo {times} veces lo que a otro.",
    "joint decides": "Y la unión decide cuánto necesita: aluminio, una junta, un buje blando o un tornillo de un solo "
    "uso.",
    "ask for the fastener": "El valor del vehículo sale del libro. Pregunte por el tornillo: año, marca, modelo, eje y "
    "cuál. Si el libro no lo tiene, la pregunta pasa a su encargado.",
}
"""Name of a sentence -> its wording here; the blanks are those of the English one."""

QUESTIONS: Words = {
    "What torque must the fastener get, how long is the wrench (drive to hand), and how long the adapter "
    "(drive to fastener), each with its unit?": (
        "¿Qué torque debe recibir el tornillo, cuánto mide la llave (del cuadro a la mano) y cuánto el "
        "adaptador (del cuadro al tornillo), cada uno con su unidad?"
    ),
    "How long is the adapter, from the centre of the drive to the centre of the fastener?": (
        "¿Cuánto mide el adaptador, del centro del cuadro al centro del tornillo?"
    ),
    "How long is the wrench, from the centre of the drive to where the hand pulls?": (
        "¿Cuánto mide la llave, del centro del cuadro a donde jala la mano?"
    ),
    "How long are the wrench (drive to hand) and the adapter (drive to fastener), each with its unit?": (
        "¿Cuánto miden la llave (del cuadro a la mano) y el adaptador (del cuadro al tornillo), cada uno con su unidad?"
    ),
    "What torque must the fastener get?": ("¿Qué torque debe recibir el tornillo?"),
    "Which length is the wrench and which the adapter (say it like: wrench 450 mm, adapter 50 mm)?": (
        "¿Qué medida es la llave y cuál el adaptador (dígalo así: llave 450 mm, adaptador 50 mm)?"
    ),
    "Is it a straight socket extension between wrench and socket, or an adapter that moves the fastener "
    "away from the drive?": (
        "¿Es una extensión recta entre llave y dado, o un adaptador que aleja el tornillo del cuadro?"
    ),
    "What is the lowest and the highest mark of the wrench?": ("¿Cuál es la primera y la última marca de la llave?"),
    "What was it new, what does it measure now, how far did it run between, and what is the limit, each "
    "with its unit?": (
        "¿Cuánto medía nuevo, cuánto mide ahora, cuánto rodó entre las dos y cuál es el límite, cada uno con su unidad?"
    ),
    "What was it new, what does it measure now, and what is the limit, each with its unit?": (
        "¿Cuánto medía nuevo, cuánto mide ahora y cuál es el límite, cada uno con su unidad?"
    ),
    "Down to what limit, the vehicle's or the one stamped on the part, with its unit?": (
        "¿Hasta qué límite, el del vehículo o el marcado en la pieza, con su unidad?"
    ),
    "How far did it run to wear from new to now, in km or miles?": (
        "¿Cuánto rodó para gastarse de nuevo hasta ahora, en km o millas?"
    ),
    "What was it new, or at the last measurement, and how far did it run since?": (
        "¿Cuánto medía nuevo, o en la última medición, y cuánto rodó desde entonces?"
    ),
    "Which figure is which (say it like: inner 4 mm, outer 9 mm)?": (
        "¿Cuál es cuál (dígalo así: interior 4 mm, exterior 9 mm)?"
    ),
    "Which class or grade is marked on the head, such as 8.8 or 10.9?": (
        "¿Qué clase o grado está marcado en la cabeza, como 8.8 o 10.9?"
    ),
    "What are all the readings again, with their unit, since one does not fit the others?": (
        "¿Cuáles son otra vez todas las lecturas, con su unidad, porque una no concuerda con las otras?"
    ),
    "What does the cap of the reservoir say: DOT 3, DOT 4, DOT 5 or DOT 5.1?": (
        "¿Qué dice la tapa del depósito: DOT 3, DOT 4, DOT 5 o DOT 5.1?"
    ),
}
"""A calculator's question -> the same here."""

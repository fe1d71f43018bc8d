"""The questions that belong to words with two trade meanings, in Spanish; common practice, no source.

A question that is not here is asked in the room's own general words; its choices tell the parts apart.
"""

from __future__ import annotations

_PLUG = "¿Tapón de drenado o de llenado?"
_WHEEL = "¿Tuercas de rueda o tornillos de rueda?"

QUESTIONS = {
    "Which bolt: the slide pin bolt (caliper to bracket) or the bracket bolt (bracket to knuckle)?": (
        "¿Qué tornillo: el del perno guía (caliper al soporte) o el del soporte (soporte a la mangueta)?"
    ),
    "Which mounting bolt: slide pin bolt (caliper to bracket) or bracket bolt (bracket to knuckle)?": (
        "¿Qué tornillo de montaje: el del perno guía (caliper al soporte) o el del soporte (soporte a la mangueta)?"
    ),
    "Which one turns: the bolt into the slide pin, or the bracket bolt?": (
        "¿Cuál gira: el tornillo que entra en el perno guía o el del soporte?"
    ),
    "Which anchor plate: the caliper bracket, or the drum backing plate?": (
        "¿Qué plato de anclaje: el soporte del caliper o el plato del tambor?"
    ),
    "Which plate: the drum backing plate, the rotor dust shield, or the caliper bracket?": (
        "¿Qué plato: el del tambor, la cubierta antipolvo del disco o el soporte del caliper?"
    ),
    "Which bolt at the knuckle: caliper bracket, strut, or hub bearing?": (
        "¿Qué tornillo de la mangueta: el del soporte del caliper, el del strut o el del balero de la maza?"
    ),
    "Wheel nuts or wheel bolts?": _WHEEL,
    "Which: the wheel nut, the wheel bolt, or the stud itself?": (
        "¿Cuál: la tuerca de rueda, el tornillo de rueda o el espárrago mismo?"
    ),
    "Which nut: the axle nut of a driven hub, or the adjusting nut of a taper bearing?": (
        "¿Qué tuerca: la de la flecha en una maza motriz o la de ajuste de un balero cónico?"
    ),
    "Which: the hub bearing bolts, the axle nut, or the bearing adjusting nut?": (
        "¿Cuál: los tornillos del balero de la maza, la tuerca de la flecha o la tuerca de ajuste del balero?"
    ),
    "Which: hub bearing to knuckle, rotor to hub, or the wheel bolts?": (
        "¿Cuál: balero de la maza a la mangueta, disco a la maza o los tornillos de rueda?"
    ),
    "Which: the axle nut, or the inner flange bolts?": (
        "¿Cuál: la tuerca de la flecha o los tornillos de la brida interior?"
    ),
    "Which: the axle nut at the hub, or the driveshaft flange?": (
        "¿Cuál: la tuerca de la flecha en la maza o la brida del cardán?"
    ),
    "Which: the driveshaft flange, or the half shaft to the wheel?": (
        "¿Cuál: la brida del cardán o la flecha que va a la rueda?"
    ),
    "Which flange or shaft?": "¿Qué brida o qué flecha?",
    "Which pinch bolt: ball joint, steering shaft, or damper fork?": (
        "¿Qué tornillo de apriete: el de la rótula, el de la flecha de dirección o el de la horquilla del amortiguador?"
    ),
    "Which: strut to knuckle, strut mount at the tower, or the strut rod nut?": (
        "¿Cuál: strut a la mangueta, montaje del strut en la torre o la tuerca del vástago del strut?"
    ),
    "Which: the mount nuts at the tower, the center rod nut, or the nuts at the knuckle?": (
        "¿Cuál: las tuercas del montaje en la torre, la tuerca central del vástago o las tuercas en la mangueta?"
    ),
    "Which: the mount at the tower, the rod nut, or the knuckle bolts?": (
        "¿Cuál: el montaje en la torre, la tuerca del vástago o los tornillos de la mangueta?"
    ),
    "Which: the tension (radius) rod, or the rod nut on top of the strut?": (
        "¿Cuál: la barra de tensión o la tuerca del vástago arriba del strut?"
    ),
    "Which: lower or upper arm, and the bushing bolt or the ball joint?": (
        "¿Cuál: brazo inferior o superior, y el tornillo del buje o la rótula?"
    ),
    "Which: lower or upper arm, and the pivot or the ball joint?": (
        "¿Cuál: brazo inferior o superior, y el pivote o la rótula?"
    ),
    "Which bushing: lower arm, upper arm, or sway bar?": (
        "¿Qué buje: el del brazo inferior, el del brazo superior o el de la barra estabilizadora?"
    ),
    "Lower or upper ball joint?": "¿Rótula inferior o superior?",
    "Lower or upper ball joint, and flange bolts or pinch bolt?": (
        "¿Rótula inferior o superior, y tornillos de la brida o tornillo de apriete?"
    ),
    "Which: the tie rod end nut, the jam nut, or the inner tie rod?": (
        "¿Cuál: la tuerca de la terminal de dirección, la contratuerca o la terminal interior?"
    ),
    "Which terminal: the tie rod end, or an electrical one?": "¿Qué terminal: la de dirección o una eléctrica?",
    "Which nut: tie rod jam nut, bearing adjusting nut, or parking brake cable?": (
        "¿Qué tuerca: la contratuerca de la terminal, la de ajuste del balero o la del cable del freno de "
        "estacionamiento?"
    ),
    "Which castle nut: tie rod end, ball joint, axle, or wheel bearing?": (
        "¿Qué tuerca almenada: la de la terminal de dirección, la rótula, la flecha o el balero de rueda?"
    ),
    "Nut or bolt of the stabilizer link?": "¿Tuerca o tornillo de la bieleta?",
    "Which: the link, or the bar's bracket to the frame?": "¿Cuál: la bieleta o el soporte de la barra al chasis?",
    "Which bracket?": "¿Qué soporte?",
    "Which: the banjo bolt at the caliper, the flare nut of the hard line, or the hose bracket bolt?": (
        "¿Cuál: el tornillo banjo en el caliper, la tuerca de la línea rígida o el tornillo del soporte de la manguera?"
    ),
    "Which: the banjo bolt at the caliper, the fitting, or the bracket bolt of the hose?": (
        "¿Cuál: el tornillo banjo en el caliper, la conexión o el tornillo del soporte de la manguera?"
    ),
    "Wheel speed sensor or transmission speed sensor?": (
        "¿Sensor de velocidad de rueda o sensor de velocidad de la transmisión?"
    ),
    "Which sensor?": "¿Qué sensor?",
    "Which: the wheel speed sensor, or the ABS unit?": "¿Cuál: el sensor de velocidad de rueda o la unidad ABS?",
    "Drain plug of what: engine oil, transmission, differential, transfer case or coolant?": (
        "¿Tapón de drenado de qué: aceite de motor, transmisión, diferencial, caja de transferencia o anticongelante?"
    ),
    "Plug of what: transmission, differential or transfer case?": (
        "¿Tapón de qué: transmisión, diferencial o caja de transferencia?"
    ),
    "Which plug: spark plug or a drain or fill plug?": "¿Cuál: bujía, o tapón de drenado o de llenado?",
    "Drain or fill plug?": _PLUG,
    "Drain, fill or check plug?": "¿Tapón de drenado, de llenado o de nivel?",
    "What of the differential?": "¿Qué del diferencial?",
    "What of the transfer case?": "¿Qué de la caja de transferencia?",
    "What of the transmission?": "¿Qué de la transmisión?",
    "Engine oil pan or transmission pan?": "¿Cárter del motor o de la transmisión?",
    "Which cover: differential, valve or timing?": (
        "¿Qué tapa: la del diferencial, la de válvulas o la de distribución?"
    ),
    "Intake or exhaust manifold?": "¿Múltiple de admisión o de escape?",
    "Which parking brake part: shoes, cable, lever, or the electric motor?": (
        "¿Qué parte del freno de estacionamiento: zapatas, cable, palanca o el motor eléctrico?"
    ),
    "Which shield: behind the rotor, under the engine, or over the exhaust?": (
        "¿Qué cubierta: detrás del disco, debajo del motor o sobre el escape?"
    ),
    "Which mount: engine, transmission, strut or body?": (
        "¿Qué soporte: del motor, de la transmisión, del strut o de la carrocería?"
    ),
    "Which spring fastener: U-bolt, eye, shackle or center bolt?": (
        "¿Qué parte del muelle: el abarcón, el ojo, el columpio o el tornillo de centro?"
    ),
    "Rotor screw or drum screw?": "¿Tornillo del disco o del tambor?",
    "Pads or shoes?": "¿Balatas de disco o zapatas?",
    "Which fluid?": "¿Qué fluido?",
    "Which: the rack or gear, or the steering wheel?": "¿Cuál: la cremallera o caja de dirección, o el volante?",
    "Which: the steering wheel, or the flywheel of the engine?": (
        "¿Cuál: el volante de dirección o el volante del motor?"
    ),
    "Bolt or nut of the steering wheel?": "¿Tornillo o tuerca del volante de dirección?",
    "Which pump?": "¿Qué bomba?",
    "Alignment cam bolt, or the camshaft?": "¿El tornillo excéntrico de alineación o el árbol de levas?",
    "Which cylinder: wheel, clutch slave or master?": (
        "¿Qué cilindro: el de rueda, el esclavo del clutch o el maestro?"
    ),
    "Which cap?": "¿Qué tapa o tapón?",
    "Terminal or hold-down?": "¿La terminal o la sujeción de la batería?",
    "Which: the center bolt at the hub, or the flange bolts?": (
        "¿Cuál: el tornillo central en la maza o los tornillos de la brida?"
    ),
    "Which: the driveshaft's center bearing, or the bearing in the differential?": (
        "¿Cuál: el balero central del cardán o el balero del diferencial?"
    ),
    "Which: the rotor retaining screw, the rotor to hub bolts, or the caliper bracket bolts?": (
        "¿Cuál: el tornillo de fijación del disco, los tornillos del disco a la maza o los del soporte del caliper?"
    ),
    "Which: the drum screw, the backing plate bolts, or the wheel cylinder bolts?": (
        "¿Cuál: el tornillo del tambor, los tornillos del plato de anclaje o los del cilindro de rueda?"
    ),
    "Which rod?": "¿Cuál: la biela, la terminal de dirección o el vástago del strut?",
    "The nut or the stud?": "¿La tuerca o el espárrago?",
    "Which intermediate shaft: steering, or the half shaft's?": (
        "¿Qué flecha intermedia: la de dirección o la de tracción?"
    ),
}

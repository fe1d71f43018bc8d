"""Spanish: what stands around a step of a procedure; the steps themselves are written in English."""

from __future__ import annotations

from collections.abc import Mapping

STEPS: Mapping[str, str] = {
    "stop": "ALTO si: {when} {do}",
    "shop": "Su taller dice: {text}",
    "where": "{title}, paso {number} de {of}",
    "only if": "Solo con: {fitted}",
    "because": "Porque: {text}",
    "measure": "Mida {what}: {where}",
    "look": "Revise: {text}",
    "good": "  Bien: {text}",
    "bad": "  Mal: {text}",
    "then": "  Entonces: {text}",
    "rule": "Regla: {text}",
    "lead tech": "Muéstreselo a su técnico líder antes de seguir.",
    "from the book": "Apriete {thing} a:",
    "not held": "El libro no tiene el par de apriete de {thing} de este vehículo: no lo adivine.",
    "no vehicle": "Par de apriete de {thing}: diga año, marca y modelo, y pregunte por el par de apriete de {asked}.",
    "open": "Par de apriete de {thing}: falta saber algo. Pregunte por el par de {asked} y le preguntaré.",
    "next step": "Paso siguiente",
    "whole list": "Lista completa",
    "instead": "O bien: {title}",
}

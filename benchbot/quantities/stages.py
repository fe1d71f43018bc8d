"""Tightening in stages ("30 N·m + 90 deg", "132 lb-ft; rotate; 263 lb-ft"): read as one unit and kept as one."""

from __future__ import annotations

import re
from collections.abc import Callable

from benchbot.errors import QuantityError, UnitError
from benchbot.quantities.amounts import Plain, Stage, Staged, leading_amount
from benchbot.quantities.units import BARE, SPELLINGS, UNITS, BareUnitError, Dimension, fold_spelling, tidy_signs

# "+/-" and "+-" belong to a tolerance; a comma parts stages only before a space, since "26,5" is one figure.
_JOINT = re.compile(r"\s*(?:[;,]\s*then\b|,?\s*\bthen\b|;|,\s|(?<!^)\+(?!\s?/?\s?-))\s*", re.IGNORECASE)
_WORDS = re.compile(r"[A-Za-z][A-Za-z' -]*")
_WORDS_THEN_AMOUNT = re.compile(r"([A-Za-z][A-Za-z' -]*?)\s+([0-9.].*)", re.DOTALL)
_LONGEST_WORDS = 60
_MOST_STAGES = 12

PlainReader = Callable[[Dimension, str], Plain]


def has_stages(text: str) -> bool:
    """Whether the text is written in stages."""
    return _JOINT.search(tidy_signs(text)) is not None


def read_stages(text: str, read_plain: PlainReader) -> Staged:
    """The stages of a torque.

    Each stage is a torque, an angle, or words, alone ("rotate") or before an angle or torque ("back off 180 deg").
    The first measured stage must be a torque. QuantityError or UnitError says which stage is wrong.
    """
    tidied = tidy_signs(text)
    stages: list[Stage] = []
    joint = ""
    at = 0
    for match in [*_JOINT.finditer(tidied), None]:
        end = len(tidied) if match is None else match.start()
        stages.append(_stage(joint, tidied[at:end], len(stages) + 1, text, read_plain))
        if match is not None:
            joint = " + " if "+" in match[0] else "; "
            at = match.end()
    if len(stages) > _MOST_STAGES:
        raise QuantityError(f"{text!r} has {len(stages)} stages; {_MOST_STAGES} is the most, check the source")
    _start_with_torque(stages, text)
    return Staged(tuple(stages), text)


def _stage(joint: str, piece: str, number: int, text: str, read_plain: PlainReader) -> Stage:
    written = piece.strip()
    if not written:
        raise QuantityError(f"stage {number} of {text!r} is empty; write a torque, an angle or what to do")
    if _WORDS.fullmatch(written):
        return Stage(joint, _sound_words(written, number, text), None)
    worded = _WORDS_THEN_AMOUNT.fullmatch(written)
    words, rest = (_sound_words(worded[1], number, text), worded[2]) if worded else ("", written)
    return Stage(joint, words, _torque_or_angle(rest, number, text, read_plain))


def _sound_words(words: str, number: int, text: str) -> str:
    spoken = [fold_spelling(word) for word in words.split()]
    unit = next((word for word in spoken if word in BARE or (word in SPELLINGS and word not in _ALSO_SPOKEN)), None)
    if unit is not None:
        raise UnitError(
            f"stage {number} of {text!r} has the unit {unit!r} without a figure before it; write the figure"
        )
    if len(words) > _LONGEST_WORDS:
        raise QuantityError(f"stage {number} of {text!r} is a sentence; say what to do in {_LONGEST_WORDS} letters")
    return words


_ALSO_SPOKEN = frozenset({"turn", "in", "bar"})


def _torque_or_angle(written: str, number: int, text: str, read_plain: PlainReader) -> Plain:
    try:
        return read_plain("torque", written)
    except BareUnitError as bare:
        choices = bare.choices if bare.said else (*bare.choices, "deg")
        message = f"stage {number} of {text!r} has no unit; write {' or '.join(choices)} behind {written!r}"
        raise BareUnitError(bare.number, bare.said, choices, message) from bare
    except UnitError as not_torque:
        try:
            return read_plain("angle", written)
        except UnitError:
            # The angle was only a second try; what is wrong with the stage as a torque is what to mend.
            raise not_torque from None
        except QuantityError as error:
            raise QuantityError(f"stage {number} of {text!r}: {error}") from error


def _start_with_torque(stages: list[Stage], text: str) -> None:
    measured = [stage.amount for stage in stages if stage.amount is not None]
    if not measured:
        raise QuantityError(f"{text!r} names no torque; write the torque of the first stage")
    if UNITS[leading_amount(measured[0]).unit].dimension != "torque":
        raise UnitError(f"{text!r} starts with an angle; write the torque that comes before it")

"""Threads as they are written, "M12x1.5", "1/2-20", "10-32", and whether two of them are the same."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

_TO_THE_INCH = r"(?:tpi|threads?\sper\sinch)\b"
_SERIES = r"(?:un[cfr]|unef)\b"
_INCH = r"(?:\s?(?:\"|''|in\b|inch\b))?"
_PART_OF_AN_INCH = r"\b(?:half|quarter)[\s-](?:in|inch)\b"
_LENGTH = r"(?:\s?x\s?\d{1,3}(?:\.\d)?\b(?:\s?mm\b)?)?"
# Threads per inch of the numbered sizes: ASME B1.1, the UNC and UNF series (values from memory).
_NUMBERED = (
    r"(?:0\s?-\s?80|1\s?-\s?(?:64|72)|2\s?-\s?(?:56|64)|3\s?-\s?(?:48|56)|4\s?-\s?(?:40|48)|5\s?-\s?(?:40|44)"
    r"|6\s?-\s?(?:32|40)|8\s?-\s?(?:32|36)|10\s?-\s?32|12\s?-\s?(?:28|32))(?![\d./])"
)
# These two are a span of model years as well, so that the message itself must say that a screw is meant.
_NUMBERED_OR_YEARS = r"(?:10|12)\s?-\s?24(?![\d./])"
_A_SCREW = r"(?=\s?(?:un[cfr]|unef|tpi|threads?|bolts?|screws?|studs?|machine)\b)"

# The alternatives of one pattern over a folded message; "2x4" and "5x4.5" are no threads, a drive and a bolt pattern.
WRITTEN = rf"""
    (?<!')\bm\s?\d{{1,2}}(?:\.\d)?\s?[x*\u00b7]\s?\d(?:\.\d+)?{_LENGTH}(?![\d.])
  | (?<!')\bm\s?\d{{1,2}}\s?[-/]\s?[0-6]\.\d{{1,2}}(?![\d.])
  | (?<!')\bm\s?\d{{1,2}}\s(?:0\.[578]|0\.75|1\.0|1\.25|1\.5|1\.75|[23]\.[05])(?![\d.]|\s?[a-z]\b)
  | (?<!')\bm\s?(?:[3-8]|10|12|14|16|18|20|22|24|27|30)\b(?!\s(?:19|20)\d\d\b)(?![./-]\d)
  | (?:(?<![\d./])\d{{1,2}}/\d{{1,2}}{_INCH}\s?[-x,]?\s?)?(?<![\d./-])\d{{1,2}}\s?{_TO_THE_INCH}(?:\s?{_SERIES})?
  | (?<![\d./-])\d{{1,2}}/(?:2|4|8|16){_INCH}\s?[-x*]\s?\d{{1,2}}(?![\d/]|\.\d){_LENGTH}(?:\s?{_SERIES})?
  | (?<![\d./-])\d{{1,2}}/(?:2|4|8|16){_INCH}\s\d{{1,2}}(?=\s?{_SERIES})\s?{_SERIES}
  | (?:\#|\b(?:no|number|num)\b\.?)\s?(?:{_NUMBERED}|{_NUMBERED_OR_YEARS})(?:\s?{_SERIES})?
  | (?<![\d./-]){_NUMBERED}(?:\s?{_SERIES})?
  | (?<![\d./-]){_NUMBERED_OR_YEARS}{_A_SCREW}(?:\s?{_SERIES})?
  | {_PART_OF_AN_INCH}(?:[\s-]\d\d\b)?(?!\s(?:drive|dr|impact|gun|ratchet|breaker|wrench|socket))
    (?=(?:\s\w+){{0,2}}\s(?:bolt|nut|stud|screw|lug|tornillo|tuerca|perno)s?\b)
  | (?<![\d./-])(?:[3-9]|[1-6]\d)(?:\.\d)?\s?[x*\u00b7]\s?[0-3]\.\d{{1,2}}{_LENGTH}(?![\d.])
  | (?<![\d./-])[1-3]\d\s?[x*\u00b7]\s?[123]{_LENGTH}(?![\d.x])
"""  # fmt: skip

_METRIC = re.compile(r"m?(\d+(?:\.\d+)?)(?:[x*\u00b7/-](\d+(?:\.\d+)?))?(?:x.*)?")
_INCHES = re.compile(r"(?:#|no\.?|number|num)?(\d+(?:/\d+)?)(?:\"|''|in|inch)?[-x*,]?(\d+)?(?:x[\d.]+(?:mm)?)?")
_PER_INCH = re.compile(r"(?:(\d+/\d+)(?:\"|''|in|inch)?[-x,]?)?(\d+)(?:tpi|threads?perinch)")
_END = re.compile(rf"{_SERIES}$")


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread: diameter in mm or in inches (a numbered size: its number), "" where it was not said; pitch likewise.

    kind: "metric" with the pitch in mm, else "inch" or "numbered" with the threads per inch.
    """

    kind: str
    diameter: str
    pitch: str

    def agrees(self, other: Thread) -> bool:
        """Whether nothing that was said of both tells them apart."""
        inch = self.kind != "metric" and other.kind != "metric"
        kinds = self.kind == other.kind or (inch and not (self.diameter and other.diameter))
        return kinds and all(
            not one or not another or Fraction(one) == Fraction(another)
            for one, another in ((self.diameter, other.diameter), (self.pitch, other.pitch))
        )


def thread_of(text: str) -> Thread | None:
    """The thread that the whole text is, None when it is none."""
    plain = " ".join(text.casefold().translate({0xD7: "x", 0x2013: "-", 0x2044: "/"}).split())
    part = _SPELT_OUT.fullmatch(plain)
    if part:
        return Thread("inch", "1/2" if plain.startswith("half") else "1/4", part[1] or "")
    if not any(letter.isdigit() for letter in plain) or not (_WHOLE.fullmatch(plain) or _SPAN.fullmatch(plain)):
        return None
    spaced = re.fullmatch(r"m ?(\d+) (\d\.\d+)", plain)
    if spaced:
        return Thread("metric", spaced[1], spaced[2])
    closed = re.fullmatch(rf"(\d+/\d+){_INCH} (\d+) ?{_SERIES}", plain)
    if closed:
        return Thread("inch", closed[1], closed[2])
    bare = _END.sub("", plain).replace(" ", "")
    per_inch = _PER_INCH.fullmatch(bare)
    if per_inch:
        return Thread("inch", per_inch[1] or "", per_inch[2])
    metric = _METRIC.fullmatch(bare)
    if metric and (bare[0] == "m" or "-" not in bare) and "/" not in bare.lstrip("m"):
        return Thread("metric", metric[1], metric[2] or "")
    inches = _INCHES.fullmatch(bare)
    if inches:
        return Thread("inch" if "/" in inches[1] else "numbered", inches[1], inches[2] or "")
    return None


def threads_in(words: Iterable[str]) -> tuple[str, ...]:
    """Those of the words that are threads."""
    return tuple(word for word in words if thread_of(word) is not None)


_WHOLE = re.compile(WRITTEN, re.VERBOSE)
_SPELT_OUT = re.compile(rf"{_PART_OF_AN_INCH}(?:[\s-](\d\d))?")
_SPAN = re.compile(_NUMBERED_OR_YEARS)

"""Numbers said in words: "twenty nineteen" is 2019, "one point five" 1.5, "fifteen hundred" 1500, "oh nine" 09."""

from __future__ import annotations

from benchbot.understanding.tokens import Token

_UNITS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9}
_TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14,
    "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
_ZERO = {"oh", "o", "zero", "ought", "aught"}
_WORDS = {**_UNITS, **_TEENS, **_TENS}

NUMBER_WORDS = frozenset(_WORDS) | _ZERO | {"hundred", "thousand", "point"}


def with_spoken_numbers(tokens: list[Token]) -> list[Token]:
    """The tokens with every run of number words made into number tokens.

    A lone "one" stays a word ("the big one"); "oh" counts only before a digit word.
    """
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        taken = _number_at(tokens, at)
        if taken is None:
            out.append(tokens[at])
            at += 1
            continue
        text, length = taken
        raw = " ".join(t.raw for t in tokens[at : at + length] if t.kind != "mark")
        out.append(Token(text, raw, "number", tokens[at].glued, spoken=True))
        at += length
    return out


def _number_at(tokens: list[Token], at: int) -> tuple[str, int] | None:
    """The number that starts here, as digits, and how many tokens it takes."""
    first = _small(tokens, at)
    if first is None:
        zero = tokens[at].kind == "word" and tokens[at].text in _ZERO
        unit = _unit(tokens, at + 1) if zero else None
        return (f"0{unit}", 2) if unit is not None else None
    value, length = first
    here = at + length
    word = _word(tokens, here)
    if word == "point":
        decimals = ""
        here += 1
        while (digit := _digit(tokens, here)) is not None and len(decimals) < 4:
            decimals += digit
            here += 1
        return (f"{value}.{decimals}", here - at) if decimals else (str(value), length)
    if word == "hundred":
        rest = _small(tokens, here + 1)
        years_follow = rest is not None and rest[0] in (19, 20) and _year_end(tokens, here + 1 + rest[1]) is not None
        if rest is not None and (rest[0] < 10 or years_follow):
            # "fifteen hundred twenty seventeen" is a model and a year, "... two wheel drive" a model and a drive
            rest = None
        return (str(value * 100 + rest[0]), length + 1 + rest[1]) if rest else (str(value * 100), length + 1)
    if word == "thousand" and value < 1000:
        after = here + 1 + (_word(tokens, here + 1) == "and")
        rest = _small(tokens, after)
        if rest:
            return str(value * 1000 + rest[0]), after + rest[1] - at
        return str(value * 1000), length + 1
    if value in (19, 20) and length == 1:
        year = _year_end(tokens, here)
        if year is not None:
            return f"{value}{year[0]:02d}", length + year[1]
    if value == 1:
        return None
    return str(value), length


def _year_end(tokens: list[Token], at: int) -> tuple[int, int] | None:
    """The last two digits of a year said in pairs: "nineteen", "twenty one", "oh nine"."""
    if _word(tokens, at) in _ZERO:
        unit = _unit(tokens, at + 1)
        return (unit, 2) if unit is not None else None
    small = _small(tokens, at)
    return small if small is not None and small[0] >= 10 else None


def _small(tokens: list[Token], at: int) -> tuple[int, int] | None:
    """A number below one hundred that starts here, and its length; a hyphen may stand inside."""
    word = _word(tokens, at)
    if word is None or word not in _WORDS:
        return None
    if word in _TENS:
        after = at + 1
        if after < len(tokens) and tokens[after].text == "-":
            after += 1
        unit = _unit(tokens, after)
        if unit is not None and not (unit == 1 and _word(tokens, after + 1) == "point"):
            return _TENS[word] + unit, after + 1 - at
    return _WORDS[word], 1


def _unit(tokens: list[Token], at: int) -> int | None:
    return _UNITS.get(_word(tokens, at) or "")


def _digit(tokens: list[Token], at: int) -> str | None:
    word = _word(tokens, at)
    if word in _ZERO:
        return "0"
    if word in _UNITS:
        return str(_UNITS[word])
    if at < len(tokens) and tokens[at].kind == "number" and len(tokens[at].text) == 1:
        return tokens[at].text
    return None


def _word(tokens: list[Token], at: int) -> str | None:
    return tokens[at].text if at < len(tokens) and tokens[at].kind == "word" else None

"""Makes one token of what is one word: "rear end oil", "collar per" for caliper, a model number said in two halves."""

from __future__ import annotations

from dataclasses import replace

from benchbot.understanding.lexicon import Lexicon, VehicleNames
from benchbot.understanding.tokens import Token

_LONGEST = 5
_AXLES = ("front", "rear")


def joined_tokens(tokens: list[Token], lexicon: Lexicon, names: VehicleNames) -> list[Token]:
    """The tokens with every such run made one token; its text is the run with single spaces."""
    return _joined_numbers(_joined_words(tokens, lexicon), names)


def _joined_words(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        length = next((n for n in range(_LONGEST, 1, -1) if _is_one_word(tokens, at, n, lexicon)), 1)
        if length == 1:
            out.append(tokens[at])
        else:
            run = tokens[at : at + length]
            text = " ".join(token.text for token in run if token.kind != "mark")
            out.append(replace(run[0], text=text, raw=" ".join(token.raw for token in run), kind="word"))
        at += length
    return out


def _is_one_word(tokens: list[Token], at: int, length: int, lexicon: Lexicon) -> bool:
    run = tokens[at : at + length]
    if len(run) < length or run[0].kind == "mark" or run[-1].kind == "mark":
        return False
    if any(token.kind == "mark" and token.text not in "-/." for token in run):
        return False
    words = [token.text for token in run if token.kind != "mark"]
    if len(words) < 2:
        return False
    forms = lexicon.forms_of(" ".join(words))
    if not forms:
        return False
    if words[0] not in _AXLES and any(form.how != "heard" for form in forms):
        return True
    # "rear end" is an axle and "back in" plain English, unless the word beside makes a component of it
    beside = [tokens[i].text for i in (at - 1, at + length) if 0 <= i < len(tokens)]
    canonical = [c.word for word in beside for c in lexicon.canonical(word)]
    return any(lexicon.part_starts_with(form.word, other) for form in forms for other in canonical)


def _joined_numbers(tokens: list[Token], names: VehicleNames) -> list[Token]:
    """A model number said in two halves is one: "seventeen fifty" where the book has a 1750."""
    out: list[Token] = []
    for token in tokens:
        before = out[-1] if out else None
        if before is not None and before.spoken and token.spoken and before.text.isdigit() and token.text.isdigit():
            whole = before.text + token.text
            if len(whole) < 5 and names.words(whole):
                out[-1] = replace(before, text=whole, raw=f"{before.raw} {token.raw}")
                continue
        out.append(token)
    return out

"""Every sentence that a person sees in a reply, as plain data: the rest of the room only puts values in."""

from __future__ import annotations

# The caution that belongs to every chat rather than to a component.
MAKER_FIRST = "maker first"
MAKER_FIRST_TEXT = "The vehicle maker's current service information, local codes and licensed practice come first."

CONVERTED = "= {texts} (converted)"
PRINTED_TOO = "({text}, as the source prints it too)"
ONE_OF_SEVERAL = "{what}:"
YOU_SAID = "You said {values}. The book says:"
STAGES = "All stages belong together, in this order."
REUSE = {"replace": "fit new", "reuse": "may be reused"}
REUSE_LINE = "Fastener: {reuse}."
ORDER = "Tightening order: {order}."
FIRST_CAUTION = "First: {text}"
CAUTION = "Caution: {text}"
SOURCE = "Source: {source}; checked by {who} on {when}."
SOURCE_OF_ONE = "Source of {what}: {source}; checked by {who} on {when}."

OTHER_UNITS = "{what}also {texts} (converted)."
THREAD = "{what}thread {thread}."
STRENGTH_CLASS = "{what}class {strength_class}."
ROW = "{what}row {spec}, revision {revision}, holds for {years}."
REVIEW = "{what}to be checked again by {when}."

READ_AS = "Read “{said}” as {meant}."

NOT_HELD = "Not in our book: {what}."
LOGGED = "Logged as no. {number} for the curator. I will not estimate."
NOT_LOGGED = "I will not estimate."
REASONS = {
    "unknown vehicle": "The book has no vehicle of that name.",
    "unknown model": "The book has no such model of that make.",
    "unknown component": "The book has no part of that name.",
    "component not held": "Nothing checked is held of that part for this vehicle.",
    "year not covered": "No checked row covers that model year.",
    "position not held": "No checked row is for that position.",
    "qualifier not held": "No checked row is for that engine, drive, brakes or whatever else was said.",
    "property not held": "The part is held, but this figure of it is not.",
    "no such choice": "Nothing lies behind that choice.",
}
UNKNOWN_WORDS = "“{words}”"
SOMETHING = "what was asked"

# Choose.question, where there is one, stands in place of these.
QUESTIONS = {
    "vehicle": "Which vehicle? Say year, make and model.",
    "model": "Which model is it?",
    "year": "Which model year?",
    "component": "Which part, and what do you need of it?",
    "axle": "Front or rear?",
    "side": "Left or right?",
    "height": "Upper or lower?",
    "depth": "Inner or outer?",
    "qualifier": "Which {key}?",
    "property": "Which figure do you need?",
    "row": "More than one row fits. Which is yours?",
    "left over": "I cannot place “{key}”, and it could matter. Say it another way, or leave it out.",
    "unit": "Which unit do you mean by “{key}”?",
}
UNIT_NOT_SAID = "In which unit is that figure?"
# Where there are options to take, the question need not say what to type.
WITH_OPTIONS = {"vehicle": "Which vehicle is it?", "component": "Which part?"}
QUALIFIER_QUESTIONS = {
    "engine": "Which engine?",
    "drive": "Which drive?",
    "brakes": "Which brakes are fitted?",
    "body": "Which body?",
    "trim": "Which trim?",
    "axle": "Which rear axle?",
    "transmission": "Which transmission?",
    "market": "For which market was it built?",
    "build": "When was it built (month and year on the door label)?",
}
NUMBERED = "{number}  {label}"

CALCULATED = "{given} = {result}"
CALCULATED_NOTE = "Calculated ({formula}). It is no spec of a vehicle."

OTHER = {
    "small talk": "Here when you need a figure. Say year, make and model, the part, front or rear.",
    "vehicle set": "{vehicle}: what do you need of it?",
    "out of scope": "That is not in a spec book. I answer torques, sockets, limits, fluids and the like.",
    "too long": "That is too long for one question. Ask for one vehicle and one part at a time.",
    "not understood": "I did not get that. Say year, make and model, the part, front or rear.",
    "nothing asked": "I found nothing to look up there. Say the vehicle, the part and what you need of it.",
}
NOT_PLACED = "I cannot place “{words}”."
VEHICLE_UNCLEAR = "“{vehicle}” can be more than one vehicle. Say make, whole model and year."
HELD = "The book holds: {components}."
HELD_AND_MORE = "The book holds: {components} and {count} more."
HELD_ALL = "All of it: {components}."
HELD_NOTHING = "The book holds nothing checked for it."
YEAR_WANTED = "Say the model year when you ask."

BUILT = {"both": "built {low} to {high}", "from": "built from {low}", "to": "built up to {high}", "in": "built {low}"}

WHY_HEAD = "How I read that:"
WHY_NOTHING = "There were no words to read."
WHY_WORD = "“{words}”: {meaning}"
ROLES = {
    "vehicle": "vehicle",
    "year": "model year {read_as}",
    "qualifier": "{read_as}",
    "component": "part: {read_as}",
    "position": "where: {read_as}",
    "property": "figure: {read_as}",
    "unit": "unit {read_as}",
    "number": "{read_as}",
    "noise": "left out of account",
    "sign": "steers the message: {read_as}",
    "left over": "not understood, so it holds back any value",
}
NOISE_WITH_REASON = "left out of account: {read_as}"
LEFT_OVER_WITH_REASON = "not understood ({read_as}), so it holds back any value"
HOW = {
    "spelling": "spelling put right",
    "spelling of an everyday word": "an everyday word, misspelt",
    "heard": "as dictation or autocorrect writes it",
    "short": "short form",
    "variant": "another spelling",
    "spanish": "Spanish",
}
VEHICLE_STATES = {
    "none": "No vehicle was named, and none is set.",
    "named": "The vehicle is named in full.",
    "part": "Only a part of a model's name is there, so I ask which it is.",
    "make": "Only the make is there, so I ask which model it is.",
    "several": "More than one vehicle is named, so I ask which it is.",
    "conflict": "Make and model do not go together, so I ask.",
    "unknown": "The book has no vehicle of that name.",
}
WHY_ASK = "Asked: {what}."
WHY_ALWAYS = "“{what}” has two meanings in the trade, so I ask even when one alone is held."
WHY_DEFAULT = "No figure was named; of this part {what} is meant."

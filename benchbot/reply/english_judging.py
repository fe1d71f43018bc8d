"""The English sentences about what was measured; what is unsafe is said first in each."""

from __future__ import annotations

from benchbot.reply.wording import Words

JUDGING: Words = {
    # thickness of a rotor, pad or shoe
    "below the limit": "DO NOT USE: {measured} is {margin} below the discard limit of {limit}.",
    "far below the limit": "DO NOT USE: {measured} is far below the discard limit of {limit}, by {margin}. If that "
    "cannot be, measure again.",
    "at the limit": "DO NOT USE: {measured} is exactly the discard limit of {limit}. Nothing is left to wear.",
    "between the limits": "NO MACHINING: {measured} is {short} below the machine-to limit of {machine}. Usable as it "
    "is: {margin} above the discard limit of {limit}.",
    "at the machine-to limit": "NO MACHINING: {measured} is exactly the machine-to limit of {machine}. Usable as it "
    "is: {margin} above the discard limit of {limit}.",
    "above both limits": "USABLE: {measured} is {margin} above the discard limit of {limit}. It may be machined, by "
    "{cut} at most, to {machine}.",
    "above the limit": "USABLE: {measured} is {margin} above the discard limit of {limit}.",
    "above new": "MEASURE AGAIN: {measured} is {margin} more than new, {nominal}.",
    "far above the limit": "MEASURE AGAIN: {measured} is far more than such a part has; its discard limit is {limit}.",
    "limits contradict": "NO VERDICT on {measured}: the book's limits contradict each other.",
    # diameter of a drum
    "over the diameter": "DO NOT USE: {measured} is {margin} over the maximum diameter of {limit}.",
    "far over the diameter": "DO NOT USE: {measured} is far over the maximum diameter of {limit}, by {margin}. If "
    "that cannot be, measure again.",
    "at the diameter": "DO NOT USE: {measured} is exactly the maximum diameter of {limit}. Nothing is left to wear.",
    "under the diameter": "USABLE: {measured} is {margin} under the maximum diameter of {limit}.",
    "far under the diameter": "MEASURE AGAIN: {measured} is far under the maximum diameter of {limit}.",
    # runout and thickness variation
    "runout over": "TOO MUCH RUNOUT: {measured} is {margin} over the limit of {limit}.",
    "runout at": "RUNOUT ALLOWED: {measured} is exactly the limit of {limit}.",
    "runout within": "RUNOUT ALLOWED: {measured} is {margin} under the limit of {limit}.",
    "variation over": "TOO MUCH THICKNESS VARIATION: {measured} is {margin} over the limit of {limit}.",
    "variation at": "THICKNESS VARIATION ALLOWED: {measured} is exactly the limit of {limit}.",
    "variation within": "THICKNESS VARIATION ALLOWED: {measured} is {margin} under the limit of {limit}.",
    # what follows
    "replace as a pair": "Replace it on both sides of the axle, as a pair.",
    "before a rotor is blamed": "Before a rotor is blamed: clean the hub face, seat the rotor with its nuts, check the "
    "bearing for play, turn it to another stud and measure again.",
    "variation cannot stay": "It will be felt in the pedal. Machine both sides of the axle where the thickness allows, "
    "else replace the pair.",
    "wrong part or wrong figure": "Measured wrongly (zero of the tool, edge lip, rust), or not the part that this row "
    "is of? Compare part number and diameter before it goes on.",
    "ask your lead": "Do not decide on it: ask your lead tech.",
    "machine both sides": "If it is machined, both sides of the axle, and measure after the cut.",
    "no machine-to held": "The book holds no machine-to limit for it, so nothing here allows machining.",
    "thinnest counts": "Of several readings the worst one counts.",
    "lining or plate": "The row does not say whether it counts the lining alone or with its plate: see its source, and "
    "compare like with like.",
    "with plate": "NO VERDICT on {measured}: measured with its plate, and the limit counts the lining alone. Measure "
    "the lining.",
    "the figure alone": "That is the figure alone. Cracks, grooves, heat spots, oil or loose lining are judged apart.",
    "read as": "{figures} read as {unit}: such a part has it in no other unit. Say so if it was another.",
    # several parts in one message
    "part by itself": "NOT JUDGED: {figures} of the {part}. Send that part by itself, with its unit.",
    "one part at a time": "NOT JUDGED: your message has figures of several parts. Send each part by itself, with its "
    "unit.",
    # places
    "where left": "left",
    "where right": "right",
    "where driver": "driver side",
    "where passenger": "passenger side",
    "where inner": "inner",
    "where outer": "outer",
    "where front": "front",
    "where rear": "rear",
}
"""Name of a sentence -> its wording; the blanks are filled with figures and their units."""

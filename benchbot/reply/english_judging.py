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
    # damage that was said beside the figure
    "cracked rotor": "DO NOT USE before your lead tech has seen it: you said “{said}”. A crack that a finger nail "
    "feels, "
    "or one that reaches an edge or a hole, condemns the rotor, whatever its thickness.",
    "cracked drum": "DO NOT USE before your lead tech has seen it: you said “{said}”. A crack that a finger nail "
    "feels, "
    "or one that reaches an edge or a hole, condemns the drum, whatever its diameter.",
    "face of a face": "DO NOT USE before your lead tech has seen it: you said “{said}”. Deep grooves, hard blue spots "
    "or "
    "rusted vents: within the limits it is machined, else replaced; the figure alone does not decide.",
    "soaked of a face": "DO NOT USE before your lead tech has seen it: you said “{said}”. Find where oil, grease or "
    "fluid comes from; friction that took it up is replaced on the whole axle.",
    "cracked lining": "DO NOT USE before your lead tech has seen it: you said “{said}”. Lining that is cracked, or "
    "loose "
    "on its plate, condemns the set, whatever its thickness.",
    "soaked lining": "DO NOT USE, and show your lead tech: you said “{said}”. Friction that took up oil, grease or "
    "brake fluid is replaced on the whole axle; cleaning is no repair. Find where it comes from.",
    "damaged": "DO NOT USE before your lead tech has seen it: you said “{said}”. Damage decides before any figure "
    "does.",
    "above, figure alone": "THE FIGURE ALONE: {measured} is {margin} above the discard limit of {limit}.",
    "under, figure alone": "THE FIGURE ALONE: {measured} is {margin} under the limit of {limit}.",
    "at, figure alone": "THE FIGURE ALONE: {measured} is exactly the limit of {limit}.",
    # little left, or less than was read
    "nearly worn": "ABOVE THE LIMIT by {margin}, nearly worn: {measured}, discard limit {limit}. Plan the pair for the "
    "axle and show your lead tech.",
    "nearly worn, no machining": "ABOVE THE LIMIT by {margin}, nearly worn, no machining: {measured}, discard limit "
    "{limit}, machine-to limit {machine}. Plan the pair for the axle and show your lead tech.",
    "nearly worn, diameter": "UNDER THE LIMIT by {margin}, nearly worn: {measured}, maximum diameter {limit}. Plan the "
    "pair for the axle and show your lead tech.",
    "finer than the reading": "ABOVE THE LIMIT by {margin}, less than one step of the reading: {measured}, discard "
    "limit {limit}. Measure finer. If it stays so, plan the pair for the axle and show your lead tech.",
    "finer than the reading, no machining": "ABOVE THE LIMIT by {margin}, less than one step of the reading, no "
    "machining: {measured}, discard limit {limit}, machine-to limit {machine}. Measure finer. If it stays so, plan the "
    "pair for the axle and show your lead tech.",
    "finer than the reading, diameter": "UNDER THE LIMIT by {margin}, less than one step of the reading: {measured}, "
    "maximum diameter {limit}. Measure finer. If it stays so, plan the pair for the axle and show your lead tech.",
    # the thickness of a part of which another check has failed
    "above, check failed": "THICKNESS: {measured} is {margin} above the discard limit of {limit}.",
    "above both, check failed": "THICKNESS: {measured} is {margin} above the discard limit of {limit}, and {cut} above "
    "the machine-to limit of {machine}.",
    "no machining, check failed": "NO MACHINING: {measured} is not above the machine-to limit of {machine}; the "
    "discard "
    "limit is {limit}.",
    # what it is to be machined to
    "target below": "NO MACHINING to {measured}: that is {margin} below the machine-to limit of {machine}.",
    "target within": "To {measured}: {margin} above the machine-to limit of {machine}. Measure after the cut.",
    "target, figure alone": "THE FIGURE ALONE: {measured} is {margin} above the machine-to limit of {machine}.",
    "target without a limit": "NO MACHINING to {measured}: the book holds no machine-to limit for it.",
    # a limit read off the part
    "stamped decides": "That limit is stamped on the part; the book's is {book}, and the stricter of the two decides.",
    "stamped, no machining": "That limit is stamped on the part and lies above the book's machine-to limit of "
    "{machine}: "
    "no machining. The book's discard limit is {book}; the stricter decides.",
    "book decides": "Stamped on the part: {stamped}. The book's limit is the stricter of the two and decides.",
    "both the same": "The limit stamped on the part is the same.",
    "stamped far off": "NO VERDICT on {measured}: the limit stamped on the part, {stamped}, is far from the book's, "
    "{limit}. Read it again, or it is not the part that this row is of. Ask your lead tech.",
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
    "whole swing": "From {low} to {high}: the whole swing counts.",
    "one thickness": "NO VERDICT: {measured} is one thickness, and no variation. Measure at several places around the "
    "rotor and send all of them.",
    "thickness and variation": "NO VERDICT on {measured}: thicknesses and variations in one row. Send one or the "
    "other.",
    "one reading of the dial": "NO VERDICT: {measured} is one reading of the dial. Send the lowest and the highest of "
    "a "
    "whole turn.",
    "dial or runouts": "NO VERDICT on {measured}: readings of one turn of a dial, or the runout of several rotors? "
    "Set the dial to zero at its lowest and send the highest, or say left and right.",
    # what follows
    "replace as a pair": "Replace it on both sides of the axle, as a pair.",
    "before a rotor is blamed": "Before a rotor is blamed: clean the hub face, seat the rotor with its nuts, check the "
    "bearing for play, turn it to another stud and measure again.",
    "variation cannot stay": "It will be felt in the pedal. Machine both sides of the axle where the thickness allows, "
    "else replace the pair.",
    "variation, new pair": "It will be felt in the pedal, and there is no room to machine it out: replace the pair.",
    "sides differ": "{one} and {other} differ by {difference}. The thinner side drags, or the other does not work: "
    "slide "
    "pins, piston, hose, adjuster.",
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

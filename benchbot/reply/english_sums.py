"""The English sentences of calculations."""

from __future__ import annotations

from benchbot.reply.wording import Words

SUMS: Words = {
    # torque wrench with an adapter
    "set in line": "Set the wrench to {setting}, with the adapter in line with the handle.",
    "set across": "Set the wrench to {setting}: at a right angle the adapter changes nothing.",
    "set reversed": "Set the wrench to {setting}, with the adapter turned back along the handle.",
    "set at an angle": "Set the wrench to {setting}, with the adapter at {degrees}° to the handle.",
    "got in line": "The fastener got {setting}, with the adapter in line with the handle.",
    "got across": "The fastener got {setting}: at a right angle the adapter changes nothing.",
    "got reversed": "The fastener got {setting}, with the adapter turned back along the handle.",
    "got at an angle": "The fastener got {setting}, with the adapter at {degrees}° to the handle.",
    "other ways round": "At a right angle it would be {across}, turned back along the handle {back}.",
    "across is exact": "Hold it at a right angle to the handle; any other angle changes the torque.",
    "measure the levers": "L: centre of the square drive to the middle of the hand. E: centre of the square drive to "
    "the centre of the fastener. Pull at the grip's middle, with one hand.",
    "same unit": "It is in the unit of your {figure}.",
    "no lever left": "Turned back that far the adapter leaves hardly any lever, so no setting is good. Turn it to a "
    "right angle or in line.",
    "extension": "Set the wrench to {setting}: a straight socket extension changes nothing.",
    "across any": "At a right angle the adapter changes nothing: set the torque that you want.",
    "extension any": "A straight socket extension changes nothing: set the torque that you want.",
    "extension twists": "Keep it straight and supported. A long thin one twists, but the torque at its end is "
    "the same.",
    "extension or adapter": "A crowfoot or any adapter that moves the fastener away from the drive does change it: say "
    "its length, the wrench's and the torque.",
    # is this wrench fit
    "wrench fits": "Yes, {torque} lies in the wrench's range of {low} to {high}.",
    "wrench below": "No: {torque} lies below the lowest mark, {low}. Below it a wrench promises nothing.",
    "wrench above": "No: {torque} lies above the highest mark, {high}. Do not force it.",
    "wrench smaller": "Take a smaller wrench, or one marked in a smaller unit.",
    "wrench larger": "Take a larger wrench. Past its highest mark it may break or lose its setting.",
    "click may mean": "A click at {setting} may mean {least} to {most} (± {percent} %).",
    "any may be off": "A torque wrench that is new or just tested may be off by {percent} %.",
    "wrench may be off": "A torque wrench that is new or just tested may be off by {large} %; one whose highest mark "
    "is {small_tool} N·m or less by {small} %.",
    "as a click wrench": "That is for a click wrench. One with a bending beam may be off by 6 %.",
    "low on the scale": "It is only {share} % of the wrench's highest mark. Testing used to begin at 20 %, so a "
    "smaller wrench is surer.",
    "click is the wrench": "That is the wrench alone. Stiff threads, oil or a fast pull come on top.",
    "only in cal": "It holds for a wrench that was tested in the last 12 months or 5000 clicks and was not dropped.",
    # readings
    "variation": "Thickness variation {variation}, over {count} readings.",
    "thinnest counts": "The thinnest place is {thinnest}; that one is held against the limits.",
    "can only be": "Read as {unit}: no rotor is {figure} thick.",
    "few readings": "{count} readings are few. Measure at 4 to 8 places, the same distance from the edge.",
    "limit of the vehicle": "Whether that is too much the vehicle's own limit says. Ask for it with year, make, model "
    "and axle.",
    "runout": "Runout {runout}, from the lowest to the highest reading.",
    "runout is the whole swing": "Runout is the whole swing of the needle, not the distance from zero.",
    "runout set-up": "It counts only with the rotor held to the hub by its nuts and with no play in the bearing.",
    # wear
    "left": "{left} left until the limit.",
    "share left": "That is {share} % of what there was to wear, from {was}.",
    "nothing left": "Nothing left: it is at or below the limit of {limit}.",
    "at the limit": "Do not put it back on the road. Pads and rotors go in pairs of an axle.",
    "lasts": "About {far} until the limit, at the wear so far.",
    "lasts between": "As well as it was measured: {least} to {most}.",
    "lasts at least": "Too little wore off to say more than: at least {least} until the limit, at the wear so far.",
    "no wear seen": "No wear shows between the two, so nothing can be said of how long it lasts.",
    "measure again": "Measure again after some more wear, at the same place and with the same tool.",
    "wear goes on as before": "Wear need not go on as before: load, hills, a sticking pin change it. Measure again "
    "before the lower figure.",
    "thinnest place counts": "Take the thinnest place; of two pads the thinner one.",
    "no such thickness": "No pad or rotor is {figure} thick. Say the figure again with its unit.",
    # pads
    "pads even": "Inner and outer pad are the same.",
    "pad even": "Both ends of the pad are the same.",
    "inner worn more": "The inner pad is thinner by {difference}.",
    "outer worn more": "The outer pad is thinner by {difference}.",
    "taper": "The pad is worn to a wedge: {difference} from end to end.",
    "inner worn more points to": "It points to a piston that does not come back (seal, rust, torn boot), a "
    "parking brake or a hose that keeps pressure on; or to slide pins stuck so that the caliper does not move.",
    "outer worn more points to": "It points to slide pins or bushings stuck, so that the caliper does not let "
    "go, or to the outer pad tight in its bracket.",
    "taper points to": "It points to one slide pin stuck or worn, a pad tight at one end of the bracket, or a pad "
    "fitted wrongly.",
    "find the cause": "Find the cause before new pads go in, and show your lead tech.",
    "thinner pad counts": "The thinner pad is the one held against the limit.",
    "thinner end counts": "The thinner end is the one held against the limit.",
    # fluid
    "boiling points": "Least boiling points, dry / wet: {points}.",
    "dry and wet": "Dry is new fluid. Wet is after it took up water, about 3.7 %.",
    "glycol fluid": "{grade} is glycol based, at most {viscosity} mm²/s at -40 °C.",
    "silicone fluid": "{grade} is silicone based, at most {viscosity} mm²/s at -40 °C.",
    "five is silicone": "DOT 5 is not DOT 5.1, and never goes into the same system.",
    "no limit in service": "The rule is for new fluid; for fluid in service it has no limit. The maker's interval and "
    "the shop's rule decide.",
    "only up": "Only up: {low} into a {high} system: no. {high} into a {low} system: yes. The vehicle's own grade "
    "decides.",
    "new and amber": "New {grade} is colourless to amber.",
    "new and purple": "New {grade} is purple.",
    "colour is no proof": "It darkens in use, and a maker's colour may differ: colour proves no grade.",
    "may mix": "{one} and {other} are both glycol based and may be mixed.",
    "never mix": "Never: {one} and {other} must not be mixed. One is silicone, the other glycol.",
    "reaches": "Only up: {one} into a {other} system: yes. The other way round: no.",
    "falls short": "No: {one} boils lower than {other} must. Never go below what the cap asks for.",
    "lower one counts": "A mix boils no higher than the lower of the two lets it.",
    "read the cap": "What the reservoir cap or the book says for this vehicle decides; read it first.",
    "if mixed": "If it went in already: do not press the pedal, do not drive, show your lead tech.",
    "tested above dry": "{tested} is at or above what new {grade} must reach dry ({dry}).",
    "tested between": "{tested} is between the least of new {grade} wet ({wet}) and dry ({dry}): it has taken "
    "up water.",
    "tested below wet": "{tested} is below what {grade} must reach even wet ({wet}). Change it before the vehicle goes "
    "out.",
    # hex and thread
    "hex of a thread": "{thread} by ISO 4014, ISO 4017 (bolt) and ISO 4032 (nut): {hex}.",
    "other hexes": "On the same thread by other standards: {others}.",
    "hex is one of them": "{hex} is one of the hexes of {thread}, but that proves nothing of the thread.",
    "hex is none of them": "None of the standards here puts {hex} on {thread}; a maker still may.",
    "threads of a hex": "No thread follows from {hex}. The standards here put it on {threads}.",
    "hex tells no thread": "A hex does not tell the thread: makers put smaller and larger heads on the same "
    "thread, and fine and coarse pitch have the same head.",
    "measure the thread": "Measure the diameter and use a pitch gauge.",
    "makers differ": "Other standards and makers differ.",
    # bolts
    "load": "{torque} on {bolt} {strength} clamps with anything from {least} to {most}.",
    "load at k": "{torque} on {bolt} {strength} clamps with {load}, if K is {k}.",
    "one share of proof": "That is {share} % of what it bears without lasting stretch ({proof}).",
    "k is a guess": "K is never known that well: with the usual {low} to {high} the load lies far to either side.",
    "share of a proof load": "{share} % of the proof load of {bolt} {strength} ({proof}) is {load}.",
    "share of proof": "That is {least} to {most} % of what it bears without lasting stretch ({proof}); friction makes "
    "the difference.",
    "may overstretch": "With little friction that stretches the bolt for good.",
    "strength": "{bolt} {strength} bears {proof} without lasting stretch and breaks from {breaking}.",
    "load is no torque": "That explains a bolt. It gives no torque for a vehicle.",
    "no torque from a thread": "I give no torque for {bolt}: a size and a class do not tell one.",
    "no torque from a list": "I give no torque from a chart or a rule: no size and no class tells one.",
    "load can be explained": "What a torque does to a bolt I can explain: say the thread, the class and the torque.",
    "friction decides": "Friction decides how much of a torque clamps. With the usual K of {low} to {high} the same "
    "torque clamps one bolt {times} times as hard as the next.",
    "joint decides": "And the joint decides how much it needs: aluminium, a gasket, a soft bush or a one-time bolt.",
    "ask for the fastener": "The vehicle's own value comes from the book. Ask for the fastener: year, make, model, "
    "axle and which bolt. If the book does not hold it, your lead gets the question.",
}
"""Name of a sentence -> its wording; the blanks are filled with figures, units and names of standards."""

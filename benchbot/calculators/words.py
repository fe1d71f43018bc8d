"""The words that a question to a calculator is made of: those that carry nothing, slips, and what is said in two words.

A word that is in none of these lists is not understood, and then the message is no question to a calculator.
"""

from __future__ import annotations

import re

from rapidfuzz.distance import OSA


def _listed(words: str) -> frozenset[str]:
    return frozenset(words.split())


# Words that change no sum; a vehicle's name is never among them.
GLUE = _listed(
    """
    a an the this that these those it its is are am was were be been being i im ill ive id me my mine you your
    we our us he she they them their and or so but then if when while as of at on in to for from with without by
    per than into onto over off out up down do does did doing done can could will would should shall may might
    must need needs needed want wants wanted have has had having got gets get getting go goes going gonna gotta
    wanna let lets what whats which who how hows why where there here just only also too still even ever really
    actually about around roughly exactly please pls plz thanks thx hey hi hello ok okay yo man dude guys bro
    buddy quick question help tell show give gimme say says said know think mean means meaning figure calc
    calculate calculator math work works use used using uses put puts pulling pull set sets setting settings
    dial dialed adjust right now job one ones thing things stuff any some all each every other others another
    same real much many more less far big large small little bit value number reading readings spec calls call
    called book sheet correct correction corrected formula way case car vehicle truck shop bench tool tools good
    bad both between after before until since today yet comes come came look looks looking find make makes made
    take takes taking try trying y z u r n w dont doesnt isnt wont cant not no yes well long length lengths size
    sizes high low total whole end ends side sides center centre change changes changed affect affects matter
    matters add adds added account compensate allow difference different torque torques torqued torquing tighten
    tightened tightening tq trq ft steel new old front rear left apply applied applies applying actual nut nuts
    bolt bolts fastener screw head que cual cuanto cuanta el la los las un una de del con para por en es esta se
    mi su al o lo hay tengo necesito quiero pongo poner queda quedan voy turned target thats wrong wondering
    next exact guy check checking checked sure kind sort against hanging reads gave given theirs ours hers his
    shows showing shown shop's itself myself yours yourself yourselves ur him himself her herself ourselves
    themselves whoever whatever whichever whatevers somebody someone something anything final real nothing everything
    everybody everyone anybody anyone nobody such whose whom wherever whenever however upon because cuz cus coz
    bc though although during among toward towards along away like via amid doin ought gotten gettin letting
    making makin goin coming comin theres heres wheres whos whens whys youre youve youll youd hes shes theyre
    theyve theyll theyd weve wed itll itd thatll thatd whatll whatd whatre whered howd whod whove therell arent
    wasnt werent aint amnt didnt havent hasnt hadnt couldnt wouldnt shouldnt mustnt neednt mightnt cannot shant
    couldve wouldve shouldve mightve mustve coulda woulda shoulda oughta musta mighta yall yalls youse thisll
    thesell thers somethings someones everythings nothings everyones gunna hafta hasta lemme gimmie dunno dunnow
    whatcha watcha whaddya wat wut wuts wats wus dat dats dis tryna finna imma ima urs tha da ya yer yah ye wuz
    waz cn cud shud wud hav givin gimmee outta kinda sorta lotta coupla bouta useta supposta dontcha gotcha
    getcha betcha didja wouldja couldja yeah yea yep yup yuh nah nope naw okey okie okeydoke kk alright alrite
    aight ight uh um umm uhh uhm uhhh ummm hm hmm hmmm er erm eh ah ahh aha oh ohh ohhh anyway anyways anywho
    actualy basically literally honestly oops whoops oopsie sorry sry soz wait hang rather meant mistyped typo
    mistype misspoke meantime otherwise maybe perhaps probably prolly already again once soon later tonight
    tomorrow yesterday nowadays currently presently lately recently eventually meanwhile plse plez plss needin
    wanting wantin telling tellin told gives giving saying sayin knows knowing knowin knew known thinks thinking
    thinkin thought ask asks asked asking askin asap finds finding findin found lookin looked usin see sees
    seeing seein saw seen takin took taken putting puttin showin showed bring brings bringing bringin brought
    keep keeps keeping keepin kept tries tried tryin helps helped helping helpin calling callin rly realy very
    quite pretty purty fairly almost nearly approx approximately simply most least few several lots lot alot lil
    tad supposed suppose supposedly apparently obviously certainly definitely definately defo possibly likely
    unlikely ish whether thingy thingie able unable necessary puedo went jobs bay boss mate fella cheers
    figuring hold held holding tells
    """
)

# What dictation, haste and a Spanish-speaking shop write, and the word that is meant. Common practice, no source.
_MEANT = {
    "rotar": "rotor", "router": "rotor", "rotors": "rotor", "roter": "rotor", "disc": "rotor", "disk": "rotor",
    "discs": "rotor", "disks": "rotor", "disco": "rotor", "discos": "rotor", "pads": "pad", "pastilla": "pad",
    "pastillas": "pad", "balata": "pad", "balatas": "pad", "lining": "pad", "linings": "pad", "shoe": "pad",
    "shoes": "pad", "inboard": "inner", "inside": "inner", "interior": "inner", "outboard": "outer",
    "outside": "outer", "exterior": "outer", "wench": "wrench", "wrentch": "wrench", "rench": "wrench",
    "wrenches": "wrench", "llave": "wrench", "torquimetro": "wrench", "clicker": "click", "clicks": "click",
    "clicking": "click", "clicked": "click", "adaptor": "adapter", "adapters": "adapter", "adaptors": "adapter",
    "adaptador": "adapter", "crowfeet": "crowfoot", "crowsfoot": "crowfoot", "crowsfeet": "crowfoot",
    "crows": "crowfoot", "dogbones": "dogbone", "extention": "extension", "extensions": "extension",
    "ext": "extension", "extender": "extension", "backward": "reversed", "backwards": "reversed",
    "reverse": "reversed", "invertido": "reversed", "perpendicular": "across", "sideways": "across",
    "variacion": "variation", "dtv": "variation", "tv": "variation", "parallelism": "variation",
    "espesor": "thickness", "grosor": "thickness", "lro": "runout", "tir": "runout", "wobble": "runout",
    "alabeo": "runout", "minimum": "min", "minimo": "min", "minimos": "min", "limite": "limit", "discards": "discard",
    "mixed": "mix", "mixing": "mix", "mixes": "mix", "mezclar": "mix", "mezclo": "mix", "boils": "boil",
    "boiling": "boil", "boils at": "boil", "hierve": "boil", "ebullicion": "boil", "liquido": "fluid",
    "fluids": "fluid", "flu": "fluid", "tornillo": "bolt", "tornillos": "bolt", "tuerca": "nut", "rosca": "thread",
    "threads": "thread", "dado": "socket", "sockets": "socket", "spanner": "socket", "hexes": "hex", "clase": "class",
    "grade": "class", "toruqe": "torque", "tork": "torque", "torq": "torque", "torgue": "torque", "touque": "torque",
    "apriete": "torque", "par": "torque", "nueva": "new", "nuevas": "new", "nuevo": "new", "ahora": "now",
    "currently": "now", "clamping": "clamp", "clamps": "clamp", "accurate": "accuracy", "tolerances": "tolerance",
    "colour": "color", "topping": "top", "topped": "top", "tapered": "taper", "uneven": "taper", "wedge": "taper",
    "deg": "degrees", "degree": "degrees", "kms": "km", "yr": "years", "mo": "months", "tabla": "chart",
    "charts": "chart", "tablas": "chart", "generico": "generic", "generica": "generic", "tipico": "typical",
    "estandar": "standard", "aprieto": "tight", "aprieta": "tight", "aprietan": "tight", "apretar": "tight",
    "perno": "stud", "pernos": "stud", "birlo": "stud", "birlos": "stud", "studs": "stud", "grado": "class",
    "media": "half", "medio": "half", "pulgada": "inch", "pulgadas": "inch", "metrico": "metric",
    "metricos": "metric",
}  # fmt: skip

_TOGETHER: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), said)
    for pattern, said in (
        (r"(?<=[0-9])( ?/ ?32) ?nds?\b", r"\1"),
        (r"\bn\.m\b\.?", "nm"),
        (r"\b(ft|in|lbs?)\.(?= ?-? ?(?:lb|ft|in|pound))", r"\1 "),
        (r"\b(?:crow'?s?|claw)[ -]?(?:foot|feet)\b", "crowfoot"),
        (r"\bpata de (?:gallo|cuervo)\b", "crowfoot"),
        (r"\bdog[ -]bones?\b", "dogbone"),
        (r"\btorque[ -](?:adapt[eo]rs?|extensions?)\b", "adapter"),
        (r"\b(?:torque|tq|trq)[ -](?:wr?ench|rench|wrentch)\b", "torquewrench"),
        (r"\b(?:clicker|click)[ -](?:wr?ench|rench|wrentch)\b", "click torquewrench"),
        (r"\biso[ -]?6789(?:-[12])?(?::? ?20[0-9]{2})?\b", "iso"),
        (r"\brules? of thumb\b", "thumb"),
        (r"\blibras?[ -](?:por[ -])?(?:pies?)\b|\bpies?[ -]libras?\b", "lb ft"),
        (r"\blibras?[ -](?:por[ -])?pulgadas?\b|\bpulgadas?[ -]libras?\b", "lb in"),
        (r"\b(?:socket|straight|long|drive|ratchet|impact)[ -](?:socket[ -])?ext(?:ensions?|entions?)?\b", "socketext"),
        (r"\bext(?:ension|ention)?[ -]bars?\b", "socketext"),
        (r"\bin[ -]?line\b|\bstraight (?:out|ahead|on)\b", "inline"),
        (r"\bright[ -]angles?\b|\bsquare to\b", "across"),
        (r"\b(?:pointing|points|turned|facing|folded) back(?:wards?)?\b|\bback towards?\b", "reversed"),
        (r"\brun[ -]out\b", "runout"),
        (r"\bthickness var[a-z]*\b", "variation"),
        (r"\bmade (?:it )?to\b", "to"),
        (r"\b(?:one|1st|first|thick|thin|this) end\b", "oneend"),
        (r"\b(?:the )?(?:other|2nd|second|far) end\b|\bthe other\b", "otherend"),
        (r"\bboil(?:ing|s)?[ -]?(?:point|pt|temp(?:erature)?)s?\b|\bpunto de ebullicion\b", "boil"),
        (r"\bbrake (?=fluid|pad|rotor|disc|lining|shoe)", ""),
        (r"\bwear (?=pad|limit|min)", ""),
        (r"\bhow (?:tight|hard)\b", "howtight"),
        (r"\bproof (?:load|strength|stress)\b", "proof"),
        (r"\bclamp(?:ing)?[ -](?:load|force)\b|\bbolt (?:load|tension|stretch)\b|\bpreload\b", "clampload"),
        (r"\btop[ -]?(?:up|off|ped up|ping up)\b|\bput in\b|\bpour in\b", "top"),
        (r"\bhow (?:much )?(?:long|far)(?:er)?\b(?! (?:off|out|is|apart|does|do|from))", "howlong"),
        (r"\bhow many (?:more )?(?=km|miles|mi\b|months|years)", "howlong "),
    )
)  # fmt: skip

_SHORTEST_SLIP = 6


def together(text: str) -> str:
    """The text with what is said in two words made one word."""
    for pattern, said in _TOGETHER:
        text = pattern.sub(said, text)
    return text


def meant(word: str, known: frozenset[str]) -> str:
    """The word that is meant: itself, another form of it, or the only known word that lies one slip away."""
    found = _MEANT.get(word, word)
    if found in known or found in GLUE:
        return found
    single = found.removesuffix("s")
    if single in known:
        return single
    if len(found) < _SHORTEST_SLIP:
        return found
    near = {_MEANT.get(one, one) for one in (*known, *_MEANT) if len(one) >= 5 and OSA.distance(found, one) == 1}
    return near.pop() if len(near) == 1 else found

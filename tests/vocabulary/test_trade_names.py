"""What things are called in the trade: US, British and Australian words and shop Spanish, each with what it can mean.

Every name here is common practice, no source. A name that stands in several rows is doubtful and must be asked back.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchbot.vocabulary.terms import Phrase, Vocabulary

Meaning = Callable[[str], Phrase]

NAMES = {
    "caliper bracket": "caliper bracket|carrier|caliper carrier|holder of the caliper|caliper anchor"
    "|caliper adapter"
    "|torque member|torque plate|caliper support|brkt|soporte|porta-mordaza|caliper mount bracket",
    "caliper bracket bolt": "bracket bolt|carrier bolt|anchor bolt|adapter bolt|mounting bolt"
    "|caliper bolt|knuckle bolt"
    "|tornillo del soporte|caliper mounting bracket bolts|bracket to knuckle bolt|anchor plate",
    "caliper slide pin bolt": "guide pin bolt|slide bolt|slider bolt|pin bolt|guide bolt|lock pin bolt"
    "|caliper bolt"
    "|mounting pin|tornillo del perno guia|slide pin|slider|sleeve|guide rod|floating pin|perno guia|pasador"
    "|caliper to bracket bolt|caliper|cal|calliper|mordaza|pinza|slide pin bolt",
    "slide pin boot": "pin boot|dust boot|pin bellows|gaiter of the pin|guardapolvo pasador|pin bushing"
    "|rubber tip pin"
    "|damper sleeve",
    "brake pad": "pad|brake pad|lining|friction|disc shoe|balata|pastilla|disc pads|brake pads",
    "pad shim": "pad backing plate|steel back|pad pressure plate|pad shim|anti-squeal plate|insulator of the pad",
    "abutment clip": "abutment clip|pad clip|hardware|rattle clip|fitting kit|herrajes"
    "|anti-rattle spring|pad spring"
    "|spreader pad",
    "pad wear sensor": "wear sensor|squealer|wear indicator|tell-tale",
    "brake rotor": "rotor|disc|disk|disco|rotores|brake disc|front discs",
    "rotor retaining screw": "rotor screw|rotor retaining screw|rotor set screw|rotor keeper screw"
    "|countersunk screw"
    "|disc screw",
    "caliper piston": "caliper piston|caliper pot|brake pot|puck of the caliper|piston",
    "caliper piston seal": "piston boot|piston seal|piston dust boot|square-cut seal",
    "bleeder screw": "bleeder screw|bleed nipple|bleed valve|purgador|bleeder|bleed screw|bleeder valve|nipple bleed",
    "brake hose banjo bolt": "banjo bolt|hose bolt|union bolt|hollow bolt|tornillo banjo|brake line|banjo|brake hose",
    "crush washer": "crush washer|copper washer|sealing washer|arandela de cobre",
    "brake hose": "brake hose|flex|flexi|manguera|latiguillo|flex hose",
    "brake line flare nut": "brake line|hard line|pipe|brake pipe|tube|tuberia|flare nut|tube nut"
    "|line nut|union nut"
    "|fitting|tuerca de linea",
    "master cylinder nut": "master cylinder|mc|m/c|cilindro maestro|bomba de freno|master cylinder nut",
    "brake booster nut": "brake booster|servo|vacuum unit|booster|servofreno|booster nut",
    "ABS hydraulic unit bolt": "abs hydraulic unit|hcu|modulator|abs pump|abs module",
    "combination valve bolt": "combination valve|prop valve|brake splitter|proportioning valve",
    "brake fluid reservoir": "fluid reservoir|brake fluid bottle|brake fluid pot|deposito",
    "brake fluid": "brake fluid|brake juice|liquido de frenos|liga",
    "brake dust shield bolt": "rotor dust shield|rotor splash shield|rotor heat shield|backing plate"
    "|dust shield screws",
    "brake drum": "drum|brake drum|tambor",
    "brake shoe": "shoe|brake shoe|lining|rear lining|zapata|balata|primary shoe|leading shoe|short lining"
    "|secondary shoe|trailing shoe|long lining",
    "wheel cylinder bolt": "wheel cylinder|w/c|slave cylinder|cilindro de rueda|wheel cyl bolt",
    "backing plate bolt": "drum backing plate|back plate|anchor plate|backing plate bolt|backing plate",
    "star adjuster": "star adjuster|star wheel|self-adjuster|ajustador de estrella",
    "brake shoe hold-down spring": "hold-down|hold down spring|hold down pin|nail|return spring|pull-back spring",
    "brake shoe anchor pin": "anchor pin|anchor post",
    "parking brake shoe": "drum-in-hat shoe|dih shoe|park shoe|banksia shoe|parking brake|e-brake|handbrake|pb"
    "|freno de mano|parking brake shoe|handbrake shoe",
    "parking brake cable": "park brake cable|chicote de freno|parking brake cable",
    "electric parking brake motor": "electric park brake|epb|e-park|electric parking brake motor",
    "electric parking brake motor screw": "epb motor screw|actuator bolt|moc bolt"
    "|parking brake motor screw|epb motor bolt",
    "wheel nut": "lug nut|wheel nut|lugs|lug|tuerca de rueda|birlo|wheel|stud",
    "wheel bolt": "wheel bolt|lug bolt|perno de rueda|tornillo de rueda|lugs",
    "wheel stud": "wheel stud|lug stud|birlo|esparrago|stud",
    "locking wheel nut": "locking nut wheel|wheel lock|locker|lock key wheel",
    "wheel": "wheel|rim|alloy wheel|mag wheel|rin",
    "tire": "tire|tyre|llanta",
    "axle nut": "axle nut|hub nut|cv nut|spindle nut|stake nut|driveshaft nut|tuerca de flecha"
    "|wheel bearing|hub center nut",
    "hub bearing bolt": "hub bolt|hub-to-knuckle bolt|hub bearing bolt|bearing bolts|hub flange bolt|wheel bearing",
    "wheel bearing": "wheel bearing|hub unit|unit bearing|balero|rodamiento|wheel hub|maza|cubo",
    "wheel bearing adjusting nut": "bearing adjusting nut|spindle nut|castle nut|bearing preload nut|wheel bearing nut",
    "grease cap": "grease cap|dust cap",
    "steering knuckle": "steering knuckle|upright|hub carrier|mangueta|munon|knuckle",
    "spindle": "spindle|stub|snout",
    "wheel speed sensor bolt": "wheel speed sensor|wss|abs sensor|wheel pickup|sensor abs"
    "|abs sensor bolt|speed sensor bolt",
    "tone ring": "tone ring|reluctor|exciter",
    "CV axle": "cv axle|half shaft|axle|flecha|semieje|halfshaft",
    "CV boot clamp": "cv boot|cv gaiter|cv boot clamp",
    "tie rod end nut": "tie rod end nut|tre|track rod end|terminal|outer tie rod end|tie rod|castle nut|tie rod end",
    "inner tie rod": "inner tie rod|rack end|axial joint",
    "tie rod jam nut": "jam nut|lock nut|check nut|tie rod jam nut",
    "lower ball joint": "lower ball joint|lbj",
    "lower ball joint nut": "lower ball joint nut|lbj nut|ball joint|bj|rotula|castle nut|slotted nut|castellated nut",
    "upper ball joint nut": "upper ball joint nut|ubj nut|ball joint",
    "upper ball joint": "upper ball joint|ubj",
    "ball joint pinch bolt": "pinch bolt|clamp bolt|ball joint pinch bolt",
    "steering shaft pinch bolt": "steering shaft pinch bolt|i-shaft bolt|pinch bolt",
    "damper fork pinch bolt": "damper fork pinch bolt|pinch bolt",
    "lower control arm": "lower control arm|lca|lower wishbone|lower arm",
    "lower control arm bolt": "lower control arm bolt|lca bolt|a-arm bolt|wishbone bolt"
    "|track control arm bolt|control arm bolt|horquilla|bandeja"
    "|trapecio",
    "upper control arm": "upper control arm|uca|top arm",
    "lower control arm bushing bolt": "lca bushing bolt|arm bushing|silentblock|buje|lower control arm bush bolt",
    "stabilizer bar": "sway bar|arb|anti-roll bar|stabilizer bar|barra estabilizadora",
    "stabilizer link nut": "sway bar link nut|end link|drop link|bieleta|sway bar link|stab link nut|arb link nut",
    "stabilizer bar bracket bolt": "sway bar bracket bolt|d-bush clamp",
    "strut": "strut|macpherson strut|strut leg|amortiguador",
    "strut to knuckle bolt": "strut-to-knuckle bolt|lower strut bolt|camber bolt|strut bolt",
    "strut mount nut": "strut mount nut|strut top nut|tower nut|strut nut",
    "strut rod nut": "strut rod nut|strut center nut|strut shaft nut|strut nut",
    "shock": "shock|damper|amortiguador|shock absorber",
    "coil spring": "coil spring|resorte coil|muelle coil",
    "leaf spring U-bolt nut": "leaf u-bolt|spring u-bolt|grapa u|u bolt nut",
    "trailing arm bolt": "trailing arm|swing arm|trailing arm bolt",
    "toe link bolt": "toe link|lateral link|toe arm",
    "track bar bolt": "track bar|panhard rod|panhard bar bolt",
    "radius arm bolt": "radius rod|tension rod|strut rod|compression arm",
    "subframe bolt": "subframe bolt|cradle bolt|k-frame bolt|crossmember bolt",
    "alignment cam bolt": "cam bolt|eccentric bolt|snail",
    "steering rack bolt": "steering rack bolt|rack bolt",
    "steering gear bolt": "steering gear bolt|steering box bolt",
    "pitman arm nut": "pitman arm nut|drop arm nut",
    "idler arm nut": "idler arm nut",
    "U-joint strap bolt": "u-joint|uj|cruceta|u-joint strap bolt",
    "driveshaft flange bolt": "driveshaft flange bolt|propshaft bolt|tailshaft bolt|cardan|prop shaft flange bolt",
    "differential cover bolt": "diff cover bolt|pumpkin cover|tapa diferencial",
    "differential fill plug": "diff fill plug|diff level plug|fill plug",
    "differential drain plug": "diff drain plug|drain plug|diff drain",
    "transfer case drain plug": "transfer case drain plug|t-case drain plug|tc drain plug|transfer case plug",
    "axle flange bolt": "axle flange bolt|full floating axle bolt|full-floating shaft bolt axle",
    "engine oil drain plug": "engine oil drain plug|sump plug|tapon del carter|drain plug|oil drain plug|oil plug",
    "oil filter cap": "oil filter cap|oil filter housing|oil filter canister",
    "spark plug": "spark plug|plug|bujia|sparkplugs",
    "ignition coil bolt": "ignition coil bolt|cop bolt|coil bolt|coil pack bolts",
    "belt tensioner bolt": "belt tensioner bolt|tensioner pulley bolt|tensor",
    "alternator bolt": "alternator bolt|alternador",
    "battery terminal": "battery terminal|battery clamp|battery post|borne de bateria",
    "transmission drain plug": "trans drain plug|drain plug|gearbox drain plug",
    "transmission fill plug": "trans fill plug|fill plug",
    "transmission check plug": "trans check plug|trans level plug|trans overflow plug|check plug",
    "transmission pan bolt": "trans pan bolt|trans sump bolt|gearbox sump bolt",
    "coolant": "coolant|antifreeze|anticongelante",
    "coolant drain plug": "radiator plug|tapon de drenado del radiador|tapon del radiador",
    "radiator cap": "radiator cap|tapon del radiador",
    "flywheel bolt": "flywheel bolt|volante motor|volante",
    "steering wheel bolt": "steering wheel bolt|tornillo volante direccion|volante|tornillo del volante",
    "steering wheel nut": "steering wheel nut|tuerca volante direccion|volante|tuerca del volante",
    "O2 sensor": "o2 sensor|lambda|oxygen sensor|lambda sensor",
    "exhaust flange nut": "exhaust flange nut|downpipe nut|donut exhaust|downpipe",
    "engine mount bolt": "engine mount bolt|motor mount bolt|soporte de motor",
    "undertray bolt": "undertray|splash shield|belly pan",
}
ALWAYS_ASKED = (
    "caliper bolt|caliper mounting bolt|mounting bolt|slider bolt|caliper|slider|anchor plate"
    "|backing plate|knuckle bolt"
    "|stud|birlo|spindle nut|wheel bearing|hub bolt|hub bolts|pinch bolt|strut bolt|strut nut"
    "|control arm bolt|brake line"
    "|ball joint nut|bearing nut|parking brake|e-brake|plug|cv axle|driveshaft nut|transfer case plug|diff plug"
    "|castle nut|sway bar bolt|brake hose|rotor bolt|drum bolt|terminal|fluid|volante|tornillo del volante"
    "|tuerca del volante"
)  # fmt: skip
CLEAR = (
    "bracket bolt|caliper bracket bolt|slide pin bolt|guide pin bolt|slide pin|hub nut|axle nut"
    "|banjo bolt|bleeder|lug nut"
    "|wheel nut|lug bolt|sway bar link nut|tie rod end nut|lower ball joint nut|backing plate bolt"
    "|oil drain plug|sump plug"
    "|hub bearing bolt|strut to knuckle bolt|abs sensor bolt|wheel cylinder bolt|rotor|disc|drum|pad"
    "|shoe|brake fluid"
    "|engine oil|oil|spark plug|coolant|tire|shock bolt|dust shield screw|jam nut tie rod"
    "|caliper to bracket bolt"
)


@pytest.mark.parametrize(("name", "said"), [(name, said) for name, line in NAMES.items() for said in line.split("|")])
def test_a_name_of_the_trade_can_mean_its_component(meaning: Meaning, name: str, said: str) -> None:
    assert name in meaning(said.removeprefix("front ").removeprefix("rear ")).means


@pytest.mark.parametrize("said", ALWAYS_ASKED.split("|"))
def test_words_with_two_trade_meanings_are_always_asked(meaning: Meaning, said: str) -> None:
    phrase = meaning(said)
    assert phrase.always
    assert len(phrase.means) > 1
    assert phrase.ask.endswith("?")


@pytest.mark.parametrize("said", CLEAR.split("|"))
def test_clear_names_mean_one_component(meaning: Meaning, said: str) -> None:
    assert len(meaning(said).means) == 1


@pytest.mark.parametrize(
    ("said", "one_of"),
    [
        ("lugs", ("wheel nut", "wheel bolt")),
        ("drain plug", ("engine oil drain plug", "transmission drain plug")),
        ("speed sensor", ("wheel speed sensor bolt", "transmission speed sensor bolt")),
        ("abs sensor", ("wheel speed sensor bolt",)),
        ("end link", ("stabilizer link nut", "stabilizer link bolt")),
        ("tie rod", ("tie rod end nut", "tie rod jam nut")),
        ("pan bolts", ("oil pan bolt", "transmission pan bolt")),
    ],
)
def test_a_natural_general_word_takes_what_the_book_holds(meaning: Meaning, said: str, one_of: tuple[str, ...]) -> None:
    phrase = meaning(said)
    assert set(one_of) <= set(phrase.means)
    assert not phrase.always


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("collar per bracket bolt", "caliper bracket bolt"), ("caliber bracket bolt", "caliper bracket bolt"),
        ("break pads", "brake pad"), ("front router", "brake rotor"), ("slide pen bolt", "caliper slide pin bolt"),
        ("hub knot", "axle nut"), ("lug not", "wheel nut"), ("banjo bold", "brake hose banjo bolt"),
        ("caliper bracket bowl", "caliper bracket bolt"), ("lower ball join nut", "lower ball joint nut"),
        ("luck nut", "wheel nut"), ("spin dull nut", "axle nut"), ("tie rob end nut", "tie rod end nut"),
        ("tyrod end nut", "tie rod end nut"), ("tie rod and nut", "tie rod end nut"),
        ("sway bar ling nut", "stabilizer link nut"),
        ("hub baring bolts", "hub bearing bolt"), ("oil rain plug", "engine oil drain plug"),
        ("sped sensor bolt", "wheel speed sensor bolt"), ("break paths", "brake pad"),
        ("hub barrel bolt", "hub bearing bolt"),
    ],
)  # fmt: skip
def test_dictation_is_heard_as_the_trade_says_it(meaning: Meaning, said: str, name: str) -> None:
    assert name in meaning(said.removeprefix("front ")).means


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("head bolts", "cylinder head bolt"), ("rocker cover bolts", "valve cover bolt"),
        ("exhaust bracket bolt", "exhaust hanger bolt"), ("hose bracket bolt", "brake hose bracket bolt"),
        ("flywheel bolts", "flywheel bolt"), ("timing cover bolts", "timing cover bolt"), ("seat bolt", "seat bolt"),
        ("wiper arm nut", "wiper arm nut"), ("clutch slave cylinder bolts", "clutch slave cylinder bolt"),
        ("thermostat housing bolts", "thermostat housing bolt"), ("intake manifold bolts", "intake manifold bolt"),
        ("diff fluid", "differential fluid"), ("power steering fluid", "power steering fluid"),
        ("rear end oil", "differential fluid"), ("coolant drain plug", "coolant drain plug"),
    ],
)  # fmt: skip
def test_a_sibling_is_never_the_brake_part_it_sounds_like(meaning: Meaning, said: str, name: str) -> None:
    assert meaning(said).means == (name,)


def test_every_component_answers_to_its_own_name(vocabulary: Vocabulary, meaning: Meaning) -> None:
    for name in vocabulary.components:
        assert name in meaning(name).means, name


def test_every_phrase_means_known_components(vocabulary: Vocabulary) -> None:
    assert {name for phrase in vocabulary.component_phrases for name in phrase.means} == set(vocabulary.components)


def test_no_two_phrases_have_the_same_words(vocabulary: Vocabulary) -> None:
    words = [frozenset(phrase.words) for phrase in vocabulary.component_phrases]
    assert len(words) == len(set(words))

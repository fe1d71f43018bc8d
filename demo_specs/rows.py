"""Turns the invented vehicles into rows of the spec table, area by area of the vehicle."""

from __future__ import annotations

from collections.abc import Iterator

from figures import AXLE_NUT_SOCKETS, BRAKE_FLUIDS, DRUMS, JOINTS, OILS, ORDERS, ROTORS, TIRES, WHEEL_SOCKETS
from fleet import EVERYTHING, Generation
from sheet import Row, Sheet
from writing import length, litres, pressure


def rows_of(generation: Generation) -> Iterator[Row]:
    """All rows of one generation, area by area and branch by branch."""
    for area in EVERYTHING:
        for branch in generation.branches(area):
            sheet = Sheet(generation, branch)
            _AREAS[area](sheet)
            yield from sheet.rows


def _disc(sheet: Sheet, axle: str) -> None:
    make, heavy = sheet.generation.make, sheet.generation.size == "heavy"
    kind, stretch = f"{axle} caliper bracket bolt", make == "Tessaro" and axle == "rear"
    more = {"reuse": "replace"} if stretch or make == "Pelbrook" else {}
    if make == "Zephane":
        more["condition"] = "threadlocker"
    form = "angle" if stretch else "plain"
    for position in (f"{axle} upper", f"{axle} lower") if heavy and axle == "front" else (axle,):
        sheet.bolt("caliper bracket bolt", position, kind, form, head=True, **more)
    sheet.bolt("caliper slide pin bolt", axle, head=True)
    chance = sheet.draw("rotor", axle)
    new = ROTORS[axle][sheet.size] + chance.choice((0.0, 0.0, 1.0, 2.0))
    least = new - chance.choice((1.5, 1.8, 2.0, 2.2))
    unit = "in" if make == "Wexmoor" else "mm"
    sheet.add("brake rotor", axle, "nominal thickness", length(new, unit))
    sheet.add("brake rotor", axle, "minimum thickness", length(least, unit))
    if sheet.generation.units == "lb-ft":
        sheet.add("brake rotor", axle, "machine-to thickness", length(least + 0.4, unit))
    sheet.add("brake rotor", axle, "maximum runout", length(chance.randint(3, 9) / 100, unit, fine=True))
    if chance.random() < 0.4:
        variation = length(chance.randint(8, 16) / 1000, unit, fine=True)
        sheet.add("brake rotor", axle, "maximum thickness variation", variation)
    worn = f"{chance.choice((1.5, 2.0, 2.5, 3.0))} mm"
    sheet.add("brake pad", axle, "minimum thickness", worn, condition="lining only")
    if chance.random() < 0.35:
        lining = f"{chance.choice((9.5, 10.0, 11.0, 12.0))} mm"
        sheet.add("brake pad", axle, "nominal thickness", lining, condition="lining only")
    sheet.bolt("brake hose banjo bolt", axle, reuse="reuse with new washers")


def _both_ends(sheet: Sheet, axle: str) -> None:
    sheet.bolt("bleeder screw", axle, head=True)
    sheet.bolt("wheel speed sensor bolt", axle)


def _front_brakes(sheet: Sheet) -> None:
    _disc(sheet, "front")
    _both_ends(sheet, "front")


def _rear_brakes(sheet: Sheet) -> None:
    if sheet.rear == "drum":
        _drum(sheet)
    else:
        _disc(sheet, "rear")
    if sheet.rear == "hat":
        sheet.add("parking brake shoe", "rear", "minimum thickness", f"{sheet.draw('hat').choice((1.0, 1.2, 1.5))} mm")
    if sheet.rear == "epb":
        sheet.bolt("electric parking brake motor screw", "rear", condition="service mode on")
    _both_ends(sheet, "rear")


def _drum(sheet: Sheet) -> None:
    chance = sheet.draw("drum")
    size = DRUMS[sheet.size] + chance.choice((0.0, 0.6, 3.2)) + chance.choice((1.0, 1.5))
    sheet.add("brake drum", "rear", "maximum diameter", length(size, "mm"))
    sheet.add("brake shoe", "rear", "minimum thickness", f"{chance.choice((1.0, 1.2, 1.5, 1.6))} mm")
    sheet.bolt("wheel cylinder bolt", "rear", head=True)
    sheet.bolt("backing plate bolt", "rear", head=True)


def _wheels(sheet: Sheet) -> None:
    car = sheet.generation
    component = "wheel bolt" if car.wheel == "bolt" else "wheel nut"
    order = ORDERS[car.lugs] if sheet.draw("order").random() < 0.7 else "crisscross"
    form = "tolerance" if car.make == "Quillane" else "plain"
    sheet.bolt(component, "", "wheel nut", form, condition="dry, wheels on the ground", order=order)
    sheet.add(component, "", "socket", f"{sheet.draw('wheel socket').choice(WHEEL_SOCKETS[sheet.size])} mm")
    if sheet.draw("wheel thread").random() < 0.4:
        sheet.add(component, "", "thread", JOINTS["wheel nut"][sheet.size].thread)
    unit, kilopascal = ("psi" if car.units == "lb-ft" else "kPa"), TIRES[sheet.size]
    if car.size in ("large", "heavy"):
        for axle, more in (("front", 0), ("rear", 40)):
            sheet.add("tire", axle, "pressure", pressure(kilopascal + more, unit), condition="cold")
    else:
        kilopascal += sheet.draw("tire").choice((-10, 0, 10, 20))
        sheet.add("tire", "", "pressure", pressure(kilopascal, unit), condition="cold")


def _hubs(sheet: Sheet) -> None:
    car = sheet.generation
    driven = {"front": ("front",), "rear": ("rear",), "all": ("front", "rear")}[sheet.driven]
    stiff_axle = car.size == "heavy" or (car.size == "large" and car.make == "Wexmoor")
    for axle in driven:
        if axle == "rear" and stiff_axle:
            continue
        form = {"Zephane": "rotate", "Wexmoor": "rotate", "Tessaro": "angle"}.get(car.make, "plain")
        sheet.bolt("axle nut", axle, form=form, reuse="replace", condition="wheels on the ground")
        sheet.add("axle nut", axle, "socket", f"{AXLE_NUT_SOCKETS[sheet.size]} mm")
    for axle in ("front", "rear"):
        if axle == "rear" and stiff_axle:
            continue
        stretch = car.make in ("Tessaro", "Quillane")
        more = {"reuse": "replace"} if stretch else {}
        sheet.bolt("hub bearing bolt", axle, form="angle" if stretch else "plain", head=True, **more)


def _suspension(sheet: Sheet) -> None:
    car = sheet.generation
    sheet.bolt("lower ball joint nut", "front", reuse="replace" if car.make in ("Pelbrook", "Imbrel") else "")
    for axle in ("front", "rear"):
        sheet.bolt("stabilizer link nut", axle, head=True)
    if car.size == "heavy":
        sheet.bolt("shock bolt", "front lower", "shock bolt", condition="at ride height")
    else:
        form, more = ("angle", {"reuse": "replace"}) if car.make in ("Tessaro", "Imbrel") else ("plain", {})
        sheet.bolt("strut to knuckle bolt", "front", form=form, head=True, **more)
        sheet.bolt("strut mount nut", "front")
    sheet.bolt("lower control arm bolt", "front", condition="at ride height")
    sheet.bolt("shock bolt", "rear upper", "shock bolt")
    sheet.bolt("shock bolt", "rear lower", "shock bolt", condition="at ride height")


def _steering(sheet: Sheet) -> None:
    sheet.bolt("tie rod end nut", "", head=True)


def _engine(sheet: Sheet) -> None:
    car, chance = sheet.generation, sheet.draw("engine")
    if sheet.motor == "electric":
        return
    form = chance.choice(("plain", "plain", "range", "tolerance"))
    sheet.bolt("engine oil drain plug", "", form=form, head=True, reuse="reuse with new washer")
    unit = "qt" if car.units == "lb-ft" else "L"
    amount = float(sheet.branch.litres or car.litres)
    sheet.add("engine oil", "", "capacity", litres(amount, unit), condition="with filter")
    sheet.add("engine oil", "", "fluid", chance.choice(OILS[sheet.motor]))
    if sheet.motor != "diesel":
        sheet.bolt("spark plug", "", condition="cold engine, dry threads")
        gap = chance.randint(7, 11) / 10
        wide = f"{gap:.1f}..{gap + 0.1:.1f} mm" if chance.random() < 0.3 else f"{gap:.1f} mm"
        sheet.add("spark plug", "", "gap", wide)


def _driveline(sheet: Sheet) -> None:
    car, chance = sheet.generation, sheet.draw("driveline")
    unit = "qt" if car.units == "lb-ft" else "L"
    if sheet.driven != "front" and sheet.motor != "electric":
        sheet.bolt("driveshaft flange bolt", "rear", condition="threadlocker" if car.make == "Wexmoor" else "")
        for axle in ("front", "rear") if sheet.driven == "all" else ("rear",):
            sheet.add("differential fluid", axle, "capacity", litres(chance.randint(8, 22) / 10, unit))
            sheet.add("differential fluid", axle, "fluid", chance.choice(("75W-85", "75W-90", "80W-90")))
    if "transmission" in sheet.branch.only_if:
        sheet.add("transmission fluid", "", "capacity", litres(chance.randint(20, 70) / 10, unit))


def _fluids(sheet: Sheet) -> None:
    chance = sheet.draw("fluids")
    sheet.add("brake fluid", "", "fluid", chance.choice(BRAKE_FLUIDS))
    if chance.random() < 0.5:
        unit = "qt" if sheet.generation.units == "lb-ft" else "L"
        sheet.add("coolant", "", "capacity", litres(chance.randint(52, 118) / 10, unit))
    if sheet.rear == "hat":
        sheet.add("parking brake shoe", "rear", "note", "shoes sit inside the rotor hat; adjust with the lever down")


_AREAS = {
    "front brakes": _front_brakes, "rear brakes": _rear_brakes, "wheels": _wheels, "hubs": _hubs,
    "suspension": _suspension, "steering": _steering, "engine": _engine, "driveline": _driveline, "fluids": _fluids,
}  # fmt: skip

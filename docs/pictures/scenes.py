"""The scenes: what invented people of an invented shop do on their phones, each played in a new shop."""

from __future__ import annotations

from collections.abc import Callable

from messenger import NAME
from shop import Shop
from story import Picture

Scene = Callable[[Shop], list[Picture]]


def asking(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    ana.say("12 ondrel bracket bolt tq")
    ana.press("front")
    return [ana.picture("asking", "A question, and its answer")]


def gap(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    ana.say("12 ondrel head bolts")
    return [ana.picture("gap", "Not in the book: logged, never guessed")]


def how_read(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    ana.say("12 ondrel lug nut tq")
    ana.leave_out()
    ana.say("12 ondrel frt sta link nut tq")
    ana.press("How I read that")
    return [ana.picture("how-read", "How a message was read")]


def changed(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    wrote = ana.say("18 halcya frt sway bar link nut tq")
    ana.change(wrote, "18 halcya rear sway bar link nut tq")
    return [ana.picture("changed", "A changed question changes its answer")]


def lift(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    for text in ("16 wendla lug nut tq", "12 ondrel lug nut tq"):
        ana.say(text)
    ana.leave_out()
    ana.say("/vehicle")
    ana.press("2016 Pelbrook Wendla")
    ana.say("rear sway bar link nut tq")
    return [ana.picture("lift", "The vehicle on the lift")]


def group(shop: Shop) -> list[Picture]:
    ana, ben = (shop.phone(name, "technician").in_group(-100, "Bay crew") for name in ("Ana", "Ben"))
    ana.say(f"@{NAME} 18 halcya sway bar link nut tq")
    ben.press("front")
    ana.press("rear")
    return [ana.picture("group", "In a group")]


def not_right(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    ana.say("12 ondrel lug nut tq")
    ana.leave_out()
    ana.say("12 ondrel tie rod end nut tq")
    ana.press("Not right?")
    ana.say("the sheet in my box says 41")
    return [ana.picture("not-right", "An answer that looks wrong")]


def inline(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician").in_group(-200, "Front desk")
    ana.type_elsewhere("12 ondrel tie rod end nut tq")
    return [ana.picture("inline", "In any other chat")]


def help_screen(shop: Shop) -> list[Picture]:
    ana = shop.phone("Ana", "technician")
    ana.say("/help")
    return [ana.picture("help", "How to ask")]


def second_location(shop: Shop) -> list[Picture]:
    """The owner adds a location and makes its invite, and somebody there comes in by it and asks."""
    mara = shop.owner
    mara.say("/locations")
    mara.press("Add a location")
    mara.say("South bay")
    added = mara.picture("second-1-add", "1. Add the location")
    page = shop.messenger.last(mara.chat)
    mara.press("Invite")
    mara.press("technician", page)
    wall = "On the wall: 20 people, 30 days"
    mara.mark(wall, page)
    invited = mara.picture("second-2-invite", "2. Invite")
    mara.press(wall, page)
    mara.aside("The code in this picture is an example. It lets nobody in.")
    pinned = mara.picture("second-3-wall", "3. The page for the wall")

    dora = shop.phone("Dora")
    dora.say("/start")
    dora.aside("Dora scans the page on the wall: the chat opens, and its start button hands in the code.")
    dora.say(f"/start {shop.code}")
    dora.say("12 ondrel head bolts")
    return [added, invited, pinned, dora.picture("join", "On a new technician's phone")]


SCENES: tuple[Scene, ...] = (
    asking, gap, how_read, changed, lift, group, not_right, inline, help_screen, second_location,
)  # fmt: skip

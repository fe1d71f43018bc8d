"""The pages of a location: what is set for it, and the buttons that set it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import ClassVar
from zoneinfo import ZoneInfo

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling, plain
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import counted
from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import LANGUAGES, UNITS, Hours, Location, Refused
from benchbot.records import expected
from benchbot.records.expected import Expected
from benchbot.records.record import Record
from benchbot.reply.reply import Block

HOURS = (1, 2, 4, 8, 12, 24)
QUIET = (("18:00", "06:00"), ("18:00", "07:00"), ("19:00", "07:00"), ("20:00", "06:00"), ("20:00", "07:00"))
CLOCKS = (
    "America/New_York", "America/Chicago", "America/Denver", "America/Phoenix", "America/Los_Angeles",
    "America/Anchorage", "Pacific/Honolulu", "America/Puerto_Rico", "America/Mexico_City", "America/Monterrey",
    "America/Tijuana", "UTC",
)  # fmt: skip
LANGUAGE_NAMES = {"en": "English", "es": "Español"}


@dataclass(frozen=True, slots=True)
class LocationPages:
    """Each page takes what its button is about: the number of the location, then the value that was pressed."""

    people: People
    record: Record
    AWAITED: ClassVar[timedelta] = timedelta(minutes=15)

    def one(self, handling: Handling, about: list[str]) -> Sheet:
        location = self.people.location(int(about[0]))
        expected.taken(handling.record, handling.chat, handling.asker.person)
        return self.sheet(handling, location) if location else plain(handling.words.pressed_old)

    def sheet(self, handling: Handling, location: Location) -> Sheet:
        """What is set for a location."""
        words, number = handling.words, location.number
        here = sum(self.people.counts().get(number, {}).values())
        waiting = len(invites.open_invites(self.record, number, handling.now))
        members = counted(here, words.members_one, words.members_many)
        open_invites = counted(waiting, words.open_invites_one, words.open_invites_many)
        units = self._units(handling)[location.units]
        blocks = (
            Block("question", location.name),
            Block("note", f"{members} · {open_invites}"),
            Block(
                "note",
                words.location_settings.format(
                    units=units, language=LANGUAGE_NAMES[location.language], hours=location.vehicle_hours
                ),
            ),
            Block("note", self._quiet(handling, number)),
        )
        buttons = (
            Button(words.location_invite, f"i.{number}"),
            Button(words.location_members, f"m.{number}"),
            Button(words.location_invites, f"io.{number}"),
            Button(words.location_rename, f"ln.{number}"),
            Button(words.location_units, f"lu.{number}"),
            Button(words.location_language, f"lg.{number}"),
            Button(words.location_hours, f"lh.{number}"),
            Button(words.location_quiet, f"lq.{number}"),
            Button(words.back, "L"),
        )
        return Sheet(blocks, buttons)

    def rename(self, handling: Handling, about: list[str]) -> Sheet:
        location = self.people.location(int(about[0]))
        if location is None:
            return plain(handling.words.pressed_old)
        entry = Expected("location rename", {"location": location.number})
        expected.put(handling.record, handling.chat, handling.asker.person, entry, handling.now + self.AWAITED)
        question = Block("question", handling.words.location_ask_rename.format(location=location.name))
        return Sheet((question,), (Button(handling.words.cancel, f"l.{location.number}"),))

    def units(self, handling: Handling, about: list[str]) -> Sheet:
        names = self._units(handling)
        if len(about) > 1 and about[1] in UNITS:
            value = next(one for one in UNITS if one == about[1])
            return self._set(handling, self.people.set_defaults(int(about[0]), units=value))
        buttons = [Button(names[one], f"lu.{about[0]}.{one}", wide=True) for one in UNITS]
        return self._which(handling, handling.words.units_which, buttons, about[0])

    def language(self, handling: Handling, about: list[str]) -> Sheet:
        if len(about) > 1 and about[1] in LANGUAGES:
            value = next(one for one in LANGUAGES if one == about[1])
            changed = self.people.set_defaults(int(about[0]), language=value)
            if isinstance(changed, Location):
                for member in self.people.members(changed.number):
                    handling.after_change(member.person, self.people)
            return self._set(handling, changed)
        location = self.people.location(int(about[0]))
        head = handling.words.language_which.format(location=location.name if location else "")
        buttons = [Button(LANGUAGE_NAMES[one], f"lg.{about[0]}.{one}") for one in LANGUAGES]
        return self._which(handling, head, buttons, about[0])

    def hours(self, handling: Handling, about: list[str]) -> Sheet:
        hours = number_in(about[1]) if len(about) > 1 else None
        if hours is not None:
            return self._set(handling, self.people.set_defaults(int(about[0]), vehicle_hours=hours))
        buttons = [Button(f"{one} h", f"lh.{about[0]}.{one}") for one in HOURS]
        return self._which(handling, handling.words.hours_which, buttons, about[0])

    def quiet(self, handling: Handling, about: list[str]) -> Sheet:
        """When it is quiet there: one of the spans that shops keep; any other is set on the command line."""
        number, words = int(about[0]), handling.words
        location, held = self.people.location(number), self.people.hours(number)
        chosen = number_in(about[1]) if len(about) > 1 else None
        if location is not None and chosen is not None and chosen <= len(QUIET):
            begins, ends = QUIET[chosen - 1] if chosen else ("", "")
            return self._kept(handling, location, self.people.set_hours(number, held.zone, begins, ends))
        now = f"{handling.now.astimezone(ZoneInfo(held.zone)):%H:%M}"
        head = words.quiet_which.format(location=location.name if location else "", now=now)
        buttons = [Button(f"{begins}-{ends}", f"lq.{number}.{n}") for n, (begins, ends) in enumerate(QUIET, 1)]
        buttons += [Button(words.quiet_no, f"lq.{number}.0"), Button(words.location_clock, f"lz.{number}")]
        return self._which(handling, head, buttons, about[0])

    def clock(self, handling: Handling, about: list[str]) -> Sheet:
        """The zone that the quiet hours, and what goes out in the morning, are reckoned by."""
        number = int(about[0])
        location, held = self.people.location(number), self.people.hours(number)
        chosen = number_in(about[1]) if len(about) > 1 else None
        if location is not None and chosen is not None and chosen < len(CLOCKS):
            changed = self.people.set_hours(number, CLOCKS[chosen], held.quiet_from, held.quiet_to)
            return (
                plain(handling.words.refused(changed))
                if isinstance(changed, Refused)
                else self.quiet(handling, about[:1])
            )
        head = handling.words.clock_which.format(location=location.name if location else "")
        names = [one.rpartition("/")[2].replace("_", " ") for one in CLOCKS]
        return self._which(handling, head, [Button(one, f"lz.{number}.{n}") for n, one in enumerate(names)], about[0])

    def _kept(self, handling: Handling, location: Location, changed: Hours | Refused) -> Sheet:
        return (
            plain(handling.words.refused(changed)) if isinstance(changed, Refused) else self.sheet(handling, location)
        )

    def _quiet(self, handling: Handling, number: int) -> str:
        held, words = self.people.hours(number), handling.words
        if not held.quiet_from:
            return words.quiet_never.format(zone=held.zone)
        return words.quiet_from_to.format(begins=held.quiet_from, ends=held.quiet_to, zone=held.zone)

    def _set(self, handling: Handling, changed: Location | Refused) -> Sheet:
        if isinstance(changed, Refused):
            return plain(handling.words.refused(changed))
        # from here on the page speaks as the location does now
        handling.asker = handling.asker.knowing(changed)
        return self.sheet(handling, changed)

    def _which(self, handling: Handling, head: str, buttons: list[Button], number: str) -> Sheet:
        back = Button(handling.words.back, f"l.{number}", wide=True)
        return Sheet((Block("question", head),), (*buttons, back))

    def _units(self, handling: Handling) -> dict[str, str]:
        words = handling.words
        return {"source": words.units_source, "metric": words.units_metric, "US": words.units_us}

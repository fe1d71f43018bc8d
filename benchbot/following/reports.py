"""Sends the week's digest and the coverage picture: to whoever asked for them, and a digest every Monday by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime

from benchbot.book.reader import Book
from benchbot.curation.coverage import SEEN_FOR, coverage
from benchbot.curation.coverage_picture import coverage_notes, coverage_picture
from benchbot.curation.digest import Digest, digest
from benchbot.curation.digest_text import digest_text, digest_title
from benchbot.curation.figure_wording import figure_wording
from benchbot.curation.week_chart import week_chart
from benchbot.curation.weeks import Week, monday_at
from benchbot.desk.one_message import in_one
from benchbot.desk.picture_files import forget_pictures, keep_picture
from benchbot.desk.sheets import CAPTION_AT_MOST, Parcel, Sheet
from benchbot.errors import SettingError
from benchbot.following.addressing import Addressee, Addresses
from benchbot.people import known_bot
from benchbot.people.quiet import quiet_until
from benchbot.people.register import People
from benchbot.people.terms import Hours, Location
from benchbot.places import Home
from benchbot.records import errands, outbox
from benchbot.records.errands import Errand
from benchbot.records.record import Record, open_record
from benchbot.reply.reply import Block

DIGEST, COVERAGE = "digest", "coverage"
HOUR = 8
_ANYWHERE = Hours(0)

Draw = Callable[[str], bytes]


@dataclass(frozen=True, slots=True)
class Report:
    """What one person is sent: lines, and a picture with a caption, None where none can be drawn."""

    lines: tuple[str, ...]
    caption: str
    picture: bytes | None


def plan_digests(record: Record, now: datetime) -> int:
    """Puts the errand of the next Monday for each location that has none waiting; how many.

    It is put beforehand, so that a bot that is started again later in the week still does it.
    """
    planned = 0
    for number, zone, quiet_from, quiet_to in errands.unplanned_locations(record, DIGEST):
        hours = Hours(number, zone, quiet_from, quiet_to)
        due = monday_at(HOUR, now, zone)
        once = f"{DIGEST} {number} {Week.at(due, zone).before()}"
        due = quiet_until(hours, due) or due
        with record.writing() as store:
            # as of when it is due: what an errand's age is counted from
            planned += errands.put(store, DIGEST, {"location": number}, due, once, due) is not None
    return planned


def send_digest(home: Home, errand: Errand, now: datetime) -> str:
    """body: `location` (None: the whole shop), and `by` whom it was asked for; else it goes to all who keep the book.

    Asked for, it is of this week so far; by itself, of the last whole week.
    """
    with open_record(home) as record:
        people, by = People(record), str(errand.body.get("by", ""))
        location = _location(people, errand)
        hours = _ANYWHERE if location is None else people.hours(location.number)
        until = None if by else quiet_until(hours, now)
        if until is not None:
            return _later(record, errand, until, now)
        week = Week.at(now, hours.zone)
        found = digest(record, week if by else week.before(), now, location)
        to = _addressees(home, people, by, location)
        name = f"{DIGEST}-{found.week}-{location.number if location else 'shop'}-{errand.number}"
        reports = {one.asker.language: _digest_report(found, one.asker.language) for one in to}
        return _send(home, record, errand, to, reports, name, now)


def send_coverage(home: Home, errand: Errand, now: datetime) -> str:
    """body: `by` whom it was asked for. The whole shop's questions of the last 90 days."""
    with open_record(home) as record, Book.open(home.book) as book:
        people, by = People(record), str(errand.body.get("by", ""))
        location = _location(people, errand)
        found = coverage(record, book, now - SEEN_FOR, now)
        to = _addressees(home, people, by, location)
        reports = {}
        for language in {one.asker.language for one in to}:
            words = figure_wording(language)
            title = words.coverage_title.format(since=found.since.date())
            picture = _drawn(lambda language: coverage_picture(found, language), language)
            lines = () if picture else (title, *coverage_notes(found, words))
            reports[language] = Report(lines, title, picture)
        return _send(home, record, errand, to, reports, f"{COVERAGE}-{errand.number}", now)


def _later(record: Record, errand: Errand, until: datetime, now: datetime) -> str:
    """The same once more when the quiet is over, in place of this one."""
    with record.writing() as store:
        if errands.done(store, errand.number, "it was quiet there", now):
            once = f"{errand.once} after {until:%Y-%m-%d %H:%M}"
            errands.put(store, errand.what, errand.body, until, once, until)
    return "later, as it is quiet there"


def _location(people: People, errand: Errand) -> Location | None:
    number = errand.body.get("location")
    return None if number is None else people.location(int(number))


def _addressees(home: Home, people: People, by: str, location: Location | None) -> list[Addressee]:
    """Who asked for it, if they still keep the book somewhere; else the curators and owners of the location."""
    addresses = Addresses.of(people, known_bot.load(home))
    place = None if location is None else location.number
    if by:
        asked = addresses.of_person(by, place)
        return [asked] if asked is not None and asked.asker.may_anywhere("see gaps", True).allowed else []
    members = [] if place is None else people.people_with(("curator", "owner"), place)
    return [one for member in members if (one := addresses.of_person(member.person, place)) is not None]


def _digest_report(found: Digest, language: str) -> Report:
    picture = _drawn(lambda language: week_chart(found, language), language)
    return Report(digest_text(found, language), digest_title(found, language), picture)


def _drawn(draw: Draw, language: str) -> bytes | None:
    """None where what draws is not installed: then the words must do."""
    try:
        return draw(language)
    except SettingError:
        return None


def _send(
    home: Home,
    record: Record,
    errand: Errand,
    to: Iterable[Addressee],
    reports: dict[str, Report],
    name: str,
    now: datetime,
) -> str:
    """All of it waits to be sent and the errand is done, or neither."""
    forget_pictures(home, now)
    codes = {
        language: keep_picture(home, f"{name}-{language}.png", one.picture)
        for language, one in reports.items()
        if one.picture is not None
    }
    count = 0
    with record.writing() as store:
        # somebody else may have been faster, on another machine with the same record
        if not errands.done(store, errand.number, "sent", now):
            return "done by somebody else"
        for one in to:
            report, code = reports[one.asker.language], codes.get(one.asker.language)
            parcels = []
            if report.lines:
                parcels.append(Parcel("post", one.address.chat, _sheet(report.lines, one), language=one.asker.language))
            if code is not None:
                caption = in_one(_blocks((report.caption,)), one.desk_words, CAPTION_AT_MOST)
                parcels.append(
                    Parcel("picture", one.address.chat, caption, code=code, twice=True, language=one.asker.language)
                )
            for parcel in parcels:
                outbox.add(store, one.address.bot, one.address.chat, parcel.to_text(), now)
            count += 1
    return f"sent to {count}"


def _sheet(lines: tuple[str, ...], to: Addressee) -> Sheet:
    return in_one(_blocks(lines), to.desk_words)


def _blocks(lines: tuple[str, ...]) -> Sheet:
    return Sheet(tuple(Block("note", line) for line in lines))

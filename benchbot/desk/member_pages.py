"""The pages of a location's members: who they are, what role they have, and the way out."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

from benchbot.desk.asker import role_name
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling, plain
from benchbot.desk.listing import turned_to
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import wording_of
from benchbot.people.channels import TELEGRAM, channel_of, name_there
from benchbot.people.register import People
from benchbot.people.terms import ROLES, Member, Refused
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class MemberPages:
    """Each page takes the number of the location, then the number of the page or of the person."""

    people: People

    def all(self, handling: Handling, about: list[str]) -> Sheet:
        words, number = handling.words, int(about[0])
        location = self.people.location(number)
        if location is None:
            return plain(words.pressed_old)
        members = self.people.members(number)
        page = (number_in(about[1]) if len(about) > 1 else None) or 0
        shown, turns = turned_to(members, page, f"m.{number}.", words)
        buttons = [
            Button(f"{one.name} ({role_name(one.role, words)})", f"mm.{number}.{_number(one)}", wide=True)
            for one in shown
        ]
        buttons += turns
        buttons.append(Button(words.location_invite, f"i.{number}"))
        buttons.append(Button(words.back, f"l.{number}"))
        return Sheet((Block("question", words.members_head.format(location=location.name)),), tuple(buttons))

    def one(self, handling: Handling, about: list[str]) -> Sheet:
        member = self._member(about)
        return self._sheet(handling, int(about[0]), member) if member else plain(handling.words.member_gone)

    def change_role(self, handling: Handling, about: list[str]) -> Sheet:
        words, member = handling.words, self._member(about)
        role = next((one for one in ROLES if len(about) > 2 and one == about[2]), None)
        if member is None or role is None:
            return self._gone(handling, about[0])
        changed = self.people.change_role(member.person, int(about[0]), role, handling.asker.person, handling.now)
        if isinstance(changed, Refused):
            return self._sheet(handling, int(about[0]), member, words.refused(changed))
        named = role_name(role, words)
        if changed.before != role:
            theirs = wording_of(changed.location.language)
            told = theirs.member_told_role.format(role=role_name(role, theirs), location=changed.location.name)
            handling.tell(member.person, plain(told))
            handling.after_change(member.person, self.people)
        line = words.member_changed.format(name=member.name, role=named, location=changed.location.name)
        after = self._member(about)
        return self._sheet(handling, int(about[0]), after, line) if after else plain(line)

    def sure(self, handling: Handling, about: list[str]) -> Sheet:
        words, member = handling.words, self._member(about)
        location = self.people.location(int(about[0]))
        if member is None or location is None:
            return self._gone(handling, about[0])
        question = Block("question", words.member_remove_sure.format(name=member.name, location=location.name))
        yes = Button(words.member_remove_yes, f"my.{about[0]}.{about[1]}")
        return Sheet((question,), (yes, Button(words.cancel, f"mm.{about[0]}.{about[1]}")))

    def remove(self, handling: Handling, about: list[str]) -> Sheet:
        words, member = handling.words, self._member(about)
        if member is None:
            return self._gone(handling, about[0])
        changed = self.people.remove(member.person, int(about[0]), handling.asker.person, handling.now)
        if isinstance(changed, Refused):
            return self._sheet(handling, int(about[0]), member, words.refused(changed))
        handling.after_change(member.person, self.people)
        line = Block("note", words.member_removed.format(name=member.name, location=changed.location.name))
        return Sheet((line,), (Button(words.location_members, f"m.{about[0]}"),))

    def _sheet(self, handling: Handling, number: int, member: Member, line: str = "") -> Sheet:
        words, who = handling.words, _number(member)
        since = member.since.date().isoformat()
        role = role_name(member.role, words)
        blocks = [Block("question", words.member_line.format(name=member.name, role=role, since=since))]
        if line:
            blocks.append(Block("note", line))
        buttons = [
            Button(words.member_role.format(role=role_name(other, words)), f"mr.{number}.{who}.{other}")
            for other in ROLES
            if other != member.role
        ]
        buttons += [Button(words.member_remove, f"mx.{number}.{who}"), Button(words.back, f"m.{number}")]
        return Sheet(tuple(blocks), tuple(buttons))

    def _member(self, about: list[str]) -> Member | None:
        if len(about) < 2:
            return None
        return next((one for one in self.people.members(int(about[0])) if _number(one) == about[1]), None)

    def _gone(self, handling: Handling, number: str) -> Sheet:
        back = Button(handling.words.location_members, f"m.{number}")
        return Sheet((Block("note", handling.words.member_gone),), (back,))


def _number(member: Member) -> str:
    """What stands for them in a button's code, which is short and has dots and letters of its own."""
    if channel_of(member.person) == TELEGRAM:
        return name_there(member.person)
    return f"n{sha256(member.person.encode()).hexdigest()[:12]}"

"""The pages on which somebody is invited: whom, how many, the picture for the wall, and the way to end it."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.desk.asker import role_name
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling, plain
from benchbot.desk.listing import turned_to
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import ENGLISH, Wording, counted, wording_of
from benchbot.people import invites
from benchbot.people.channels import TERMINAL
from benchbot.people.codes import deep_link
from benchbot.people.register import People
from benchbot.people.terms import ROLES, Invite, Refused, Role
from benchbot.records.record import Record
from benchbot.reply.reply import Block

KINDS = {"one": (1, 2), "wall": (20, 30)}


@dataclass(frozen=True, slots=True)
class InvitePages:
    """Each page takes the number of the location first."""

    people: People
    record: Record

    def roles(self, handling: Handling, about: list[str]) -> Sheet:
        words, number = handling.words, about[0]
        head = words.invite_role.format(location=self._name(number))
        buttons = [Button(role_name(role, words), f"ik.{number}.{role}") for role in ROLES]
        return Sheet((Block("question", head),), (*buttons, Button(words.back, f"l.{number}")))

    def kinds(self, handling: Handling, about: list[str]) -> Sheet:
        words, number = handling.words, about[0]
        role = self._role(about)
        if role is None:
            return plain(words.pressed_old)
        head = words.invite_kind.format(role=role_name(role, words), location=self._name(number))
        buttons = (
            Button(words.invite_one, f"ig{role}.{number}.{role}.one", wide=True),
            Button(words.invite_wall, f"ig{role}.{number}.{role}.wall", wide=True),
            Button(words.back, f"i.{number}", wide=True),
        )
        return Sheet((Block("question", head),), buttons)

    def make(self, handling: Handling, about: list[str]) -> Sheet:
        """Makes the invite and sends its picture; the code stands there and nowhere else.

        The picture speaks to whoever comes in, so it has the language of the location.
        """
        words, number, role = handling.words, int(about[0]), self._role(about)
        kind = KINDS.get(about[2]) if len(about) > 2 else None
        if role is None or kind is None:
            return plain(words.pressed_old)
        uses, days = kind
        invite, code = invites.make(self.record, number, role, uses, days, handling.asker.person, handling.now)
        location, bot = self._name(about[0]), handling.bot
        link = deep_link(bot.link, code) if bot.link else ""
        theirs = self._spoken(number)
        lines = [
            theirs.invite_caption.format(location=location, role=role_name(role, theirs)),
            theirs.invite_link.format(link=link),
            theirs.invite_by_hand.format(bot=bot.username, code=code),
        ]
        if bot.channel == TERMINAL:
            # without a bot for phones there is nothing to scan
            lines = [*(lines if link else ()), theirs.invite_at_terminal.format(code=code)]
        shared = counted(uses, theirs.invite_uses_one, theirs.invite_uses_many)
        lines.append(theirs.invite_until.format(uses=shared, until=_until(invite)))
        card = handling.card("page", {"picture": bool(link)})
        revoke = Button(words.invite_revoke, f"iv.{number}.{invite.number}")
        caption = Sheet(tuple(Block("note", line) for line in lines), (revoke,))
        if link:
            handling.picture(caption, card, link, theirs.invite_title.format(location=location))
        else:
            handling.post(caption, card)
        return Sheet((Block("note", words.invite_made),), (Button(words.back, f"l.{number}"),))

    def open(self, handling: Handling, about: list[str]) -> Sheet:
        """The invites that still let somebody in, the oldest first, each with the button that ends it."""
        words, number = handling.words, int(about[0])
        held = invites.open_invites(self.record, number, handling.now)
        back = Button(words.back, f"l.{number}", wide=True)
        if not held:
            return Sheet((Block("question", words.invites_none.format(location=self._name(about[0]))),), (back,))
        page = (number_in(about[1]) if len(about) > 1 else None) or 0
        shown, turns = turned_to(held, page, f"io.{number}.", words)
        blocks = [Block("question", words.invites_head.format(location=self._name(about[0])))]
        blocks += [Block("note", self._line(handling, one)) for one in shown]
        buttons = [Button(f"{words.invite_revoke} {one.shown}…", f"iv.{number}.{one.number}") for one in shown]
        return Sheet(tuple(blocks), (*buttons, *turns, back))

    def revoke(self, handling: Handling, about: list[str]) -> Sheet | None:
        words = handling.words
        number = (number_in(about[1]) if len(about) > 1 else None) or 0
        invite = invites.find(self.record, number)
        if invite is None or invite.location != int(about[0]):
            return plain(words.pressed_old)
        ended = invites.revoke(self.record, number, handling.now)
        if isinstance(ended, Refused):
            return plain(words.refused(ended))
        return Sheet((Block("note", words.invite_revoked),), (Button(words.location_invites, f"io.{about[0]}"),))

    def _role(self, about: list[str]) -> Role | None:
        return next((one for one in ROLES if len(about) > 1 and one == about[1]), None)

    def _line(self, handling: Handling, invite: Invite) -> str:
        words = handling.words
        left = counted(invite.uses_left, words.invite_left_one, words.invite_left_many)
        role = role_name(invite.role, words)
        return words.invite_line.format(shown=invite.shown, role=role, left=left, until=_until(invite))

    def _spoken(self, number: int) -> Wording:
        location = self.people.location(number)
        return wording_of(location.language) if location else ENGLISH

    def _name(self, number: str) -> str:
        location = self.people.location(int(number))
        return location.name if location else ""


def _until(invite: Invite) -> str:
    return invite.expires_at.strftime("%Y-%m-%d %H:%M")

"""What gets one line at most, however often it comes: floods, what comes late, pictures, and who is nobody."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from benchbot.desk.asker import Asker
from benchbot.desk.handling import Handling, plain
from benchbot.desk.joining import Joining
from benchbot.desk.limits import Limits
from benchbot.desk.sheets import Offers
from benchbot.people.register import People
from benchbot.records import cards
from benchbot.records.entry import Entry

LATE = timedelta(minutes=5)
ALBUM_KEPT = timedelta(hours=1)
_LATE_AGAIN = timedelta(minutes=10)
_NOBODY_AGAIN = timedelta(hours=1)


def is_late(handling: Handling) -> bool:
    """Whether it is a message that was written too long ago to be answered now."""
    incoming = handling.incoming
    return incoming.what not in ("press", "inline", "chosen") and handling.now - incoming.at > LATE


@dataclass(frozen=True, slots=True)
class OneLine:
    """Each of these counts as handled, with or without a line."""

    people: People
    joining: Joining
    limits: Limits

    def has_room(self, handling: Handling) -> bool:
        """Takes one off what this person and this chat may ask in a minute."""
        incoming = handling.incoming
        if incoming.what == "inline":
            return self.limits.room_for_query(incoming.person, handling.now)
        # an offer that was chosen is no question: it is only noted
        return incoming.what == "chosen" or self.limits.room_for_message(*self._shares(handling), handling.now)

    def hold_back(self, handling: Handling) -> None:
        """Too much at once: a press and a query have an answer of their own, a chat is told in one line a flood."""
        incoming, shares = handling.incoming, self._shares(handling)
        if incoming.what == "press":
            handling.refuse(handling.words.too_many)
        elif incoming.what == "inline":
            with handling.writing():
                handling.at_once.append(Offers(incoming.query))
        elif self.limits.is_told(*shares):
            handling.pass_over()
        else:
            handling.say(handling.words.too_many)
            self.limits.told(*shares)

    def late(self, handling: Handling) -> None:
        """One line for all that piled up in a chat while nobody answered; what members asked stays on record."""
        incoming, words = handling.incoming, handling.words
        with handling.writing():
            if handling.asker.memberships:
                entry = Entry(
                    chat=handling.chat, person=incoming.person, message=None, text=incoming.text, at=handling.now,
                    outcome="late", reading="{}", reply="[]", location=handling.asker.manner.location,
                )  # fmt: skip
                handling.record.put(entry)
                if self._is_first(handling, "late", _LATE_AGAIN):
                    handling.post(plain(words.late))
            elif self.joining.is_told(incoming) and self._is_first(handling, "late outside", _LATE_AGAIN):
                handling.post(plain(words.outside))

    def nobody(self, handling: Handling) -> None:
        """Who writes in the name of a group is told once an hour to write as themselves, where a member writes too.

        Anywhere else it would tell outsiders more than they are told in their own name.
        """
        chat = handling.incoming.chat
        if is_late(handling) or not self.limits.room_for_message("", chat, handling.now):
            handling.pass_over()
            return
        told = cards.stood_since(handling.record, _place(handling), "nobody", handling.now - _NOBODY_AGAIN)
        member = None if told else self._member_in(handling)
        with handling.writing():
            if member is not None and self._is_first(handling, "nobody", _NOBODY_AGAIN):
                handling.post(plain(member.words.nobody))

    def media(self, handling: Handling) -> None:
        """One friendly line, and one alone for all the pictures of an album."""
        album = handling.incoming.album
        with handling.writing():
            if not (album and self.is_known_album(handling)):
                handling.post(plain(handling.words.media))

    def is_known_album(self, handling: Handling) -> bool:
        """Whether something of the album came before; from now on it did."""
        asked = f"album {handling.incoming.album}"
        if cards.asked(handling.record, handling.chat, asked) is not None:
            return True
        handling.card("album", {}, asked, ALBUM_KEPT)
        return False

    def _shares(self, handling: Handling) -> tuple[str, str]:
        return handling.incoming.person, handling.incoming.chat or handling.incoming.person

    def _is_first(self, handling: Handling, what: str, again: timedelta) -> bool:
        """Whether the chat has not had that line for so long; from now on it has."""
        chat, now = _place(handling), handling.now
        if cards.stood_since(handling.record, chat, what, now - again):
            return False
        cards.put(handling.record, chat, handling.incoming.person, "late", what, {}, now, now + max(again, ALBUM_KEPT))
        return True

    def _member_in(self, handling: Handling) -> Asker | None:
        """Somebody who has written in this chat and is a member of a location."""
        for person in cards.writers(handling.record, _place(handling)):
            asker = Asker.of(person, "", self.people)
            if asker.memberships:
                return asker
        return None


def _place(handling: Handling) -> str:
    """The chat itself, whoever writes in it."""
    return f"{handling.incoming.channel} {handling.incoming.chat}"

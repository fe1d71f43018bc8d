"""The way in: a code lets a person in; whoever has none is told to ask their shop, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.desk.asker import Asker, role_name
from benchbot.desk.handling import Handling, plain
from benchbot.desk.incoming import Incoming
from benchbot.desk.sheets import Offers, Sheet
from benchbot.desk.standing import greeting
from benchbot.people import invites
from benchbot.people.codes import looks_like_code
from benchbot.people.register import People
from benchbot.people.terms import Joined
from benchbot.records.record import Record
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class Joining:
    """Strangers, and members who come with a code for another location or a higher role."""

    people: People
    record: Record

    def is_code(self, handling: Handling) -> bool:
        """Whether the message hands in a code; only in private, so that nobody else reads it."""
        incoming = handling.incoming
        if not incoming.private or incoming.what != "text":
            return False
        # "invite" is what the button for strangers below an inline query hands in
        behind_start = incoming.command == "start" and incoming.text not in ("", "invite")
        return behind_start or (not incoming.command and looks_like_code(incoming.text))

    def hand_in(self, handling: Handling) -> None:
        """The code is taken, or refused with one reason whatever is wrong with it."""
        incoming = handling.incoming
        with handling.writing():
            came = invites.redeem(self.record, incoming.text, incoming.person, incoming.name, handling.now)
            if not isinstance(came, Joined):
                handling.post(plain(handling.words.code_refused))
                return
            if came.how != "already":
                # whoever has just come in stands where they came in
                self.people.stand(incoming.person, came.location.number)
            handling.asker = Asker.of(incoming.person, incoming.name, self.people)
            handling.post(self._welcome(handling, came))
            handling.after_change(incoming.person, self.people)

    def turn_away(self, handling: Handling) -> None:
        """A stranger."""
        incoming, words = handling.incoming, handling.words
        if incoming.what == "press":
            handling.refuse(words.outside)
        elif incoming.what == "inline":
            with handling.writing():
                handling.at_once.append(Offers(incoming.query, (), words.outside))
        elif self.is_told(incoming):
            handling.say(words.outside)
        else:
            handling.pass_over()

    def is_told(self, incoming: Incoming) -> bool:
        """Whether a stranger gets a line in the chat for it."""
        return incoming.what == "text" or (incoming.what == "media" and incoming.private)

    def _welcome(self, handling: Handling, came: Joined) -> Sheet:
        words = handling.words
        form = {"joined": words.joined, "raised": words.raised, "already": words.joined_before}[came.how]
        head = form.format(role=role_name(came.role, words), location=came.location.name)
        return Sheet((Block("question", head), *greeting(handling.asker).blocks[1:]))

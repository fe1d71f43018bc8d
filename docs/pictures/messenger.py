"""Takes the calls that the bot makes to its messenger, and keeps for each chat what a phone would show of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import count

from story import Entry, Notice, Said, Shown, Typing
from telegram import InlineKeyboardMarkup, InlineQueryResultArticle, InputTextMessageContent, ReplyParameters, User

# Nothing is called that: a name of the messenger's own could be somebody's bot, whom readers of a picture would meet.
NAME = "examplebay_bot"
LINK = f"https://chat.example/{NAME}"
ME = User(900, "Benchbot", True, username=NAME)


@dataclass(slots=True)
class Message:
    """A message as it stands now. shown: what a phone shows of it, None for what a person wrote."""

    message_id: int
    chat: int
    text: str
    shown: Shown | None = None
    markup: InlineKeyboardMarkup | None = None

    def data(self, label: str) -> str:
        """What comes back when the button of that label is pressed. KeyError when there is none."""
        rows = self.markup.inline_keyboard if self.markup else ()
        return {button.text: str(button.callback_data) for row in rows for button in row}[label]


@dataclass(frozen=True, slots=True)
class Asked:
    """Somebody's press or query that the bot has to answer. what: the button's label, or what they typed."""

    who: str
    chat: int
    what: str


@dataclass(slots=True)
class Messenger:
    """Stands where the sending part of the bot expects the Bot API; each method is the call of that name."""

    stories: dict[int, list[Entry]] = field(default_factory=dict)
    messages: dict[int, Message] = field(default_factory=dict)
    queries: dict[str, Asked] = field(default_factory=dict)
    results: list[InlineQueryResultArticle] = field(default_factory=list)
    _ids: count[int] = field(default_factory=lambda: count(101))

    def story(self, chat: int) -> list[Entry]:
        return self.stories.setdefault(chat, [])

    def wrote(self, chat: int, who: str, text: str) -> Message:
        """A person's message."""
        self.story(chat).append(Said(who, text))
        return self._keep(Message(next(self._ids), chat, text))

    def last(self, chat: int) -> Message:
        """The newest message of the bot in that chat."""
        return next(one for one in reversed(self.messages.values()) if one.chat == chat and one.shown)

    async def send_message(
        self,
        chat_id: int,
        text: str,
        reply_markup: InlineKeyboardMarkup | None = None,
        reply_parameters: ReplyParameters | None = None,
        **_: object,
    ) -> Message:
        quote = self.messages[reply_parameters.message_id].text if reply_parameters else ""
        return self._new(chat_id, Shown(text, _rows(reply_markup), quote), reply_markup)

    async def send_photo(
        self,
        chat_id: int,
        photo: bytes,
        caption: str,
        reply_markup: InlineKeyboardMarkup | None = None,
        **_: object,
    ) -> Message:
        return self._new(chat_id, Shown(caption, _rows(reply_markup), photo=photo), reply_markup)

    async def edit_message_text(
        self,
        text: str,
        chat_id: int,
        message_id: int,
        reply_markup: InlineKeyboardMarkup | None = None,
        **_: object,
    ) -> None:
        message = self.messages[message_id]
        quote = message.shown.quote if message.shown else ""
        message.text, message.markup = text, reply_markup
        message.shown = Shown(text, _rows(reply_markup), quote, changed=True)
        self.story(chat_id).append(message.shown)

    async def edit_message_caption(
        self,
        chat_id: int,
        message_id: int,
        caption: str,
        reply_markup: InlineKeyboardMarkup | None = None,
        **more: object,
    ) -> None:
        await self.edit_message_text(caption, chat_id, message_id, reply_markup, **more)

    async def set_my_commands(self, commands: Sequence[object], scope: object) -> None:
        """The menu is drawn in no picture."""

    async def answer_callback_query(self, query: str, text: str | None = None, **_: object) -> None:
        if text:
            asked = self.queries[query]
            self.story(asked.chat).append(Notice(asked.who, asked.what, text))

    async def answer_inline_query(self, query: str, results: list[InlineQueryResultArticle], **_: object) -> None:
        asked = self.queries[query]
        self.results = results
        offers = tuple((one.title, one.description or "") for one in results)
        self.story(asked.chat).append(Typing(asked.who, asked.what, offers))

    def choose(self, chat: int, who: str, number: int) -> None:
        """The person sends one of the results of their query."""
        result = self.results[number]
        content = result.input_message_content
        assert isinstance(content, InputTextMessageContent)
        self._new(chat, Shown(content.message_text, _rows(result.reply_markup), by=who), result.reply_markup)

    def _new(self, chat: int, shown: Shown, markup: InlineKeyboardMarkup | None) -> Message:
        self.story(chat).append(shown)
        return self._keep(Message(next(self._ids), chat, shown.html, shown, markup))

    def _keep(self, message: Message) -> Message:
        self.messages[message.message_id] = message
        return message


def _rows(markup: InlineKeyboardMarkup | None) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(button.text for button in row) for row in markup.inline_keyboard) if markup else ()

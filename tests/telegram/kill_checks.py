"""Counts after a run of kills: every question answered, no gap lost or doubled, no notification lost."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from kill_figures import Figures, Key, kill_between, windows
from kill_phones import Post
from kill_run import CURATOR, OWNER, Run, left
from standin.client import StandIn
from standin.looks import Shown

from benchbot.desk.wording import ENGLISH
from benchbot.records.record import Record, open_record

Pair = tuple[Shown, Shown]
ANSWERS = "SELECT asked FROM answer WHERE chat = :chat ORDER BY answer"
GAPS = "SELECT gap.gap, gap.question FROM gap"
NOTES = "SELECT note, said FROM note"
STATES = "SELECT state, count(*) FROM sending GROUP BY state"
# The first sending of a message is the one that made it; later ones changed it.
SENT = """
SELECT chat, message, ended_at FROM sending AS made WHERE message <> '' AND NOT EXISTS
(SELECT 1 FROM sending AS older WHERE older.chat = made.chat AND older.message = made.message
AND older.sending < made.sending)
"""
NO_CHANGE = "message is not modified"
_LOGGED = re.compile(r"Logged as no\. (\d+) ")
_KEPT = re.compile(ENGLISH.note_kept.replace("{number}", r"(\d+)"))
_TOLD = re.compile(r".* marked an answer as not right, note (\d+):\n|To note (\d+):\n(.*)")


def checked(run: Run) -> Figures:
    """AssertionError with what is lost, doubled or wrong."""
    assert left(run.home) == (0, 0)
    _check_logs(run.logs)
    chats = {chat: run.server.answers(chat) for chat in (*run.owed, CURATOR, OWNER)}
    with open_record(f"sqlite:///{run.home.record}") as record:
        assert [row[0] for row in record.rows(STATES, {})] == ["sent"]
        _check_answers(run, record)
        copies = {key for chat in run.owed for key in _keys(chat, _doubled(run.owed[chat], chats[chat]))}
        gaps = _check_gaps(run, record, chats)
        notes = _check_notes(run, record)
        copies |= {key for chat in (CURATOR, OWNER) for key in _keys(chat, _doubled_notes(chats[chat], notes))}
        rows = record.rows(SENT, {})
    changes = _check_refusals(run)
    repeated = sum(one["count"] for one in _events(run.logs, "sendings of a killed process are repeated"))
    assert len(copies) + changes <= repeated, f"{len(copies)} stand twice, {changes} changed twice, {repeated} repeated"
    taken = _taken(run.server, chats)
    recorded = {(chat, message): datetime.fromisoformat(ended).timestamp() for chat, message, ended in rows}
    met = [kill_between(run.kills, taken[one], taken[again]) for one, again in copies]
    return Figures(
        seconds=run.seconds, kills=dict(Counter(when for when, _ in run.kills)), questions=run.plan.questions,
        presses=sum(len(phone.asked) for phone in run.crowd.phones) - run.plan.questions, gaps=gaps, notes=len(notes),
        messages=len(taken), repeated=repeated, doubled=dict(Counter(run.kills[kill][0] for kill in met)),
        at_once=max(Counter(met).values(), default=0),
        windows=windows(taken, recorded, {one for one, _ in copies}),
    )  # fmt: skip


def _check_logs(logs: Sequence[Sequence[dict[str, Any]]]) -> None:
    wrong = [one for log in logs for one in log if one["level"] in ("error", "critical")]
    assert not wrong, wrong


def _events(logs: Sequence[Sequence[dict[str, Any]]], event: str) -> Iterable[dict[str, Any]]:
    return (one for log in logs for one in log if one["event"] == event)


def _check_answers(run: Run, record: Record) -> None:
    """Each question and each choice is on record once, in the order of its chat."""
    for phone in run.crowd.phones:
        assert [row[0] for row in record.rows(ANSWERS, {"chat": phone.name})] == phone.asked, phone.name
    assert sum(len(posts) for posts in run.owed.values()) >= run.plan.questions


def _doubled(owed: Sequence[Post], shown: Sequence[Shown]) -> list[Pair]:
    """The messages of a chat that stand there once more, directly behind; fails when one is missing or out of order."""
    at, doubled, answered = -1, [], set()
    for number, message in enumerate(shown):
        if at + 1 < len(owed) and _fits(owed[at + 1], message):
            at += 1
        elif at >= 0 and _fits(owed[at], message):
            doubled.append((shown[number - 1], message))
        else:
            raise AssertionError(f"behind {owed[at] if at >= 0 else 'nothing'} stands {message}")
        question = owed[at].question
        if question is not None and {*question.shows} <= {*message.text.splitlines()}:
            answered.add(at)
    assert at + 1 == len(owed), f"not answered: {owed[at + 1 :]}"
    unanswered = [post for number, post in enumerate(owed) if post.question is not None and number not in answered]
    assert not unanswered, unanswered
    return doubled


def _fits(post: Post, message: Shown) -> bool:
    lines = {*message.text.splitlines()}
    if post.question is None:
        asks, kept = ENGLISH.note_ask in lines, _KEPT.fullmatch(message.text) is not None
        # Without words, the message that asks for them becomes the one that says that the note is kept.
        return (asks or kept) if post.what == "note asked" else kept
    if message.reply_to is not None and message.reply_to != post.message:
        return False
    asks_back = bool(post.question.asks) and {*post.question.asks} <= lines
    return asks_back or {*post.question.shows} <= lines


def _check_gaps(run: Run, record: Record, chats: dict[int, list[Shown]]) -> int:
    """Each is on record once, and its reply tells the number that it has there."""
    held = {int(number): text for number, text in record.rows(GAPS, {})}
    owed = [post.question for posts in run.owed.values() for post in posts if post.question is not None]
    wanted = [question for question in owed if question.kind == "gap"]
    assert Counter(held.values()) == Counter(question.text for question in wanted)
    shows = {question.text: question.shows[0] for question in wanted}
    told = {}
    for shown in (one for messages in chats.values() for one in messages):
        found = _LOGGED.search(shown.text)
        if found:
            told[int(found[1])] = shown.text.splitlines()[0]
    assert told == {number: shows[text] for number, text in held.items()}
    return len(held)


def _check_notes(run: Run, record: Record) -> dict[int, str]:
    """The notes with their words."""
    notes = {int(number): str(said) for number, said in record.rows(NOTES, {})}
    assert len(notes) == sum(phone.notes for phone in run.crowd.phones)
    words = [word for phone in run.crowd.phones for word in phone.words]
    assert sorted(filter(None, notes.values())) == sorted(words)
    return notes


def _doubled_notes(shown: Sequence[Shown], notes: dict[int, str]) -> list[Pair]:
    """Every note and all words to it are told; gives the messages that stand once more, directly behind."""
    told: list[tuple[int, str]] = []
    doubled = []
    for number, message in enumerate(shown):
        found = _TOLD.match(message.text)
        assert found is not None, message
        one = int(found[1] or found[2]), found[3] or ""
        if told and told[-1] == one:
            doubled.append((shown[number - 1], message))
        else:
            told.append(one)
    wanted = [(number, "") for number in notes] + [(number, said) for number, said in notes.items() if said]
    assert Counter(told) == Counter(wanted)
    return doubled


def _check_refusals(run: Run) -> int:
    """How many changes were sent twice: the server says so, and refuses nothing else."""
    refused = [call for call in run.server.refused() if NO_CHANGE not in call.description]
    assert not refused, refused
    return len(run.server.refused())


def _taken(server: StandIn, chats: dict[int, list[Shown]]) -> dict[Key, float]:
    """When the server took each message; the n-th request for a chat made the n-th message that stands there."""
    requests: dict[int, list[float]] = {}
    for call in server.calls("sendMessage"):
        if call.chat is not None and call.handled:
            requests.setdefault(call.chat, []).append(call.at)
    taken: dict[Key, float] = {}
    for chat, messages in chats.items():
        taken.update(zip((_key(chat, one) for one in messages), requests.get(chat, []), strict=True))
    return taken


def _keys(chat: int, pairs: Sequence[Pair]) -> list[tuple[Key, Key]]:
    return [(_key(chat, one), _key(chat, again)) for one, again in pairs]


def _key(chat: int, message: Shown) -> Key:
    return str(chat), str(message.id)

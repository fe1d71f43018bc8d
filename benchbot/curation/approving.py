"""The second person: what waits for approval, approved, sent back with a comment, withdrawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from benchbot.book.reader import Book
from benchbot.checking import Concern, Found
from benchbot.curation.submitting import changed, in_the_way, look_over, vocabulary_of
from benchbot.curation.two_people import name_of, one_person_allowed, safety_relevant, same_person
from benchbot.errors import TableError
from benchbot.people.channels import TELEGRAM, channel_of
from benchbot.people.names import same_name
from benchbot.records import notes, reviews, revisions
from benchbot.records.record import Record, Store
from benchbot.records.reviews import Passed
from benchbot.records.revisions import Revision
from benchbot.vocabulary.terms import Vocabulary

# What a denial is about, for whoever words it anew.
About = Literal[
    "unknown row", "changed since", "nothing waits", "own row", "no name", "faults", "refused", "warnings",
    "no comment", "withdrawn already", "same name", "own check",
]  # fmt: skip
_ENDED = ("sent back", "withdrawn")


@dataclass(frozen=True, slots=True)
class Waiting:
    """A draft that waits for approval. name: its author's. before: the revision that answers meanwhile, or None.

    passed: the warnings that its author let pass. imported: it came in a table, and nobody handed it in.
    """

    spec: str
    revision: int
    author: str
    name: str
    at: str
    why: str
    cells: dict[str, str]
    before: Revision | None
    passed: tuple[Passed, ...]
    imported: bool

    @property
    def changes(self) -> tuple[tuple[str, str, str], ...]:
        """(column, before, now) of every cell that differs from what answers."""
        return cells_changed(self.before.cells if self.before else {}, self.cells)


@dataclass(frozen=True, slots=True)
class Approved:
    """The revision that answers once the book is published. one_person: nobody but its author has checked it.

    notes: what technicians said about the row and nobody has settled; until then it is shown as questioned.
    """

    spec: str
    revision: int
    one_person: bool
    notes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SentBack:
    """filling: the author's, open again with its fields; None when the row came another way."""

    spec: str
    revision: int
    author: str
    filling: int | None


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """revision: the one that withdraws the row; of a change taken back, the draft itself."""

    spec: str
    revision: int


@dataclass(frozen=True, slots=True)
class Denied:
    """Nothing was written; reason: in words for the person who tried. found: what stands in the way of approval."""

    reason: str
    about: About
    found: tuple[Found, ...] = ()


def waiting(record: Record) -> list[Waiting]:
    """Every row that waits for approval, in the order that they came."""
    found = []
    for draft in revisions.drafts(record):
        last = reviews.last(record, draft.spec, draft.revision)
        if last is None or last.did not in _ENDED:
            found.append(_waiting(record, draft))
    return found


def waiting_one(record: Record, spec: str) -> Waiting | None:
    """The draft of that row that waits for approval."""
    draft = revisions.newest(record, spec)
    if draft is None or not _waits(record, draft):
        return None
    return _waiting(record, draft)


def approve(
    record: Record,
    spec: str,
    revision: int,
    person: str,
    name: str,
    now: datetime,
    reasons: Mapping[Concern, str] | None = None,
    vocabulary: Vocabulary | None = None,
    book: Book | None = None,
) -> Approved | Denied:
    """Makes the draft that the person has seen a verified row. That they are a curator or owner is decided beforehand.

    revision: the one they have seen; when the row was changed since, nothing is done. name: as the answers will show
    it. reasons: by concern, why a warning may pass that nobody let pass yet, as of a draft that came in a table.
    """
    with record.writing() as store:
        draft = _held(record, store, spec, revision)
        if isinstance(draft, Denied):
            return draft
        if not name.strip():
            return Denied("Approving needs a name, which the answers will show.", "no name")
        author = _is_author(record, draft, person, name)
        alone = safety_relevant(draft.cells["property"]) and (author or _has_checked(record, draft, person, name))
        if alone and not one_person_allowed(record):
            if not author:
                return Denied(
                    f"The row says that you, {draft.cells['checked_by']}, checked it; another curator or owner has to "
                    "approve it. An owner can allow one-person shops.",
                    "own check",
                )
            if _two_accounts(draft.author, person):
                return Denied(
                    f"You and the author of this row both go by the name {name.strip()}. If you are two people, an "
                    "owner can tell you apart: one of you has to go by another name.",
                    "same name",
                )
            return Denied(
                "You wrote this row yourself; another curator or owner has to approve it. An owner can allow "
                "one-person shops.",
                "own row",
            )
        let_pass = _let_pass(record, draft)
        reasons = {**(reasons or {}), **let_pass}
        try:
            looked = look_over(record, draft.cells, name, now.date(), vocabulary or vocabulary_of(record), book)
        except TableError as error:
            return Denied("\n".join(map(str, error.faults)), "faults")
        standing = in_the_way(looked.found, reasons)
        if standing:
            refused = any(one.level == "refused" for one in standing)
            told = "\n".join(f"{one.concern}: {one.told}. {one.mend}".rstrip(". ") for one in standing)
            return Denied(told, "refused" if refused else "warnings", standing)
        change = revisions.put_change(store, person, f"approved revision {revision}", now)
        revisions.put(store, looked.row, revision + 1, change)
        reviews.put(store, spec, revision, person, "approved", name, now)
        for one in looked.found:
            if one.level == "warning" and one.concern not in let_pass:
                reviews.put_passed(store, spec, revision + 1, one.concern, one.told, reasons[one.concern], person, now)
        if alone:
            reviews.put_sole(store, spec, revision + 1, person, now)
        return Approved(spec, revision + 1, alone, notes.open_on(record, spec))


def send_back(record: Record, spec: str, revision: int, person: str, said: str, now: datetime) -> SentBack | Denied:
    """Gives a draft back to its author with a comment; what they had filled in is open to them again."""
    said = " ".join(said.split())
    if not said:
        return Denied("Say what is to be mended.", "no comment")
    with record.writing() as store:
        draft = _held(record, store, spec, revision)
        if isinstance(draft, Denied):
            return draft
        reviews.put(store, spec, revision, person, "sent back", said, now)
        filling = reviews.reopen_filling(store, spec, draft.author, now)
        return SentBack(spec, revision, draft.author, filling)


def withdraw(
    record: Record, spec: str, person: str, why: str, now: datetime, seen: int | None = None
) -> Withdrawn | Denied:
    """The row answers no more, and a draft of it waits no more. One person is enough for that.

    seen: the newest revision when the person looked; when the row was changed since, nothing is done.
    """
    why = " ".join(why.split())
    if not why:
        return Denied("Say why the row is withdrawn.", "no comment")
    with record.writing() as store:
        revisions.hold(store, spec)
        newest = revisions.newest(record, spec)
        if newest is None:
            return Denied(f"There is no row {spec}.", "unknown row")
        if seen is not None and newest.revision != seen:
            return _changed_since(newest, seen)
        if newest.status == "withdrawn":
            return Denied(f"Row {spec} is withdrawn already.", "withdrawn already")
        # What was shown, not what waits, is what is withdrawn.
        speaking = revisions.answering(record, spec) or newest
        change = revisions.put_change(store, person, why, now)
        revisions.put(store, changed(speaking.row, {"status": "withdrawn"}), newest.revision + 1, change)
        reviews.put(store, spec, newest.revision + 1, person, "withdrawn", why, now)
        return Withdrawn(spec, newest.revision + 1)


def take_back(record: Record, spec: str, revision: int, person: str, why: str, now: datetime) -> Withdrawn | Denied:
    """A draft waits no more; what answered before goes on answering."""
    why = " ".join(why.split())
    if not why:
        return Denied("Say why the change is taken back.", "no comment")
    with record.writing() as store:
        draft = _held(record, store, spec, revision)
        if isinstance(draft, Denied):
            return draft
        reviews.put(store, spec, revision, person, "withdrawn", why, now)
        return Withdrawn(spec, revision)


def cells_changed(before: Mapping[str, str], after: Mapping[str, str]) -> tuple[tuple[str, str, str], ...]:
    """(column, before, after) of every cell that differs."""
    names = [name for name in after if name != "id" and before.get(name, "") != after[name]]
    return tuple((name, before.get(name, ""), after[name]) for name in names)


def _held(record: Record, store: Store, spec: str, revision: int) -> Revision | Denied:
    """The draft, kept from others until the transaction ends, when it is the newest and waits."""
    revisions.hold(store, spec)
    newest = revisions.newest(record, spec)
    if newest is None:
        return Denied(f"There is no row {spec}.", "unknown row")
    if newest.revision != revision:
        return _changed_since(newest, revision)
    if not _waits(record, newest):
        return Denied(f"Row {spec} waits for nobody: it is {state_of(record, newest)}.", "nothing waits")
    return newest


def _changed_since(newest: Revision, seen: int) -> Denied:
    return Denied(
        f"Row {newest.spec} was changed since: it is at revision {newest.revision} ({newest.status}), you looked at "
        f"{seen}. Look at it again.",
        "changed since",
    )


def _waits(record: Record, newest: Revision) -> bool:
    return state_of(record, newest) == "draft"


def state_of(record: Record, newest: Revision) -> str:
    """Its status, or "sent back" or "dropped" of a draft that waits no more."""
    if newest.status != "draft":
        return newest.status
    last = reviews.last(record, newest.spec, newest.revision)
    if last is None or last.did not in _ENDED:
        return newest.status
    return "dropped" if last.did == "withdrawn" else last.did


def _is_author(record: Record, draft: Revision, person: str, name: str) -> bool:
    known_as = (reviews.submitted_as(record, draft.spec, draft.revision),)
    if same_person(record, draft.author, person, known_as):
        return True
    return same_person(record, draft.author, name, known_as)


def _has_checked(record: Record, draft: Revision, person: str, name: str) -> bool:
    """Whether the draft itself names the person as the one who checked it, as a draft from a table may."""
    checked_by = draft.cells["checked_by"]
    known = (name, name_of(record, person))
    return bool(checked_by) and any(one and same_name(one, checked_by) for one in known)


def _two_accounts(author: str, person: str) -> bool:
    """Whether the two are people of one messenger, each with a number of their own."""
    return author != person and TELEGRAM == channel_of(author) == channel_of(person)


def _let_pass(record: Record, draft: Revision) -> dict[Concern, str]:
    """By concern, why warnings of the draft may pass."""
    passed = reviews.passed(record, draft.spec)
    return {one.concern: one.reason for one in passed if one.revision == draft.revision}


def _waiting(record: Record, draft: Revision) -> Waiting:
    passed = tuple(one for one in reviews.passed(record, draft.spec) if one.revision == draft.revision)
    name = name_of(record, draft.author) or draft.author
    before = revisions.answering(record, draft.spec)
    imported = not reviews.submitted_as(record, draft.spec, draft.revision)
    return Waiting(
        draft.spec, draft.revision, draft.author, name, draft.at, draft.why, draft.cells, before, passed, imported
    )

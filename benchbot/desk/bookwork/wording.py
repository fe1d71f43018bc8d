"""Every sentence of the curator's pages, as plain data: the rest of the room only puts values in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from benchbot.checking import Concern, Level

_ASK = {
    "make": "Make?",
    "model": "Model?",
    "years": "Model years that the source names?",
    "component": "Which part?",
    "position": "Where on the vehicle?",
    "property": "What is stated?",
    "only_if": "Only for some engine, drive, brakes ...?",
    "value": "The value, as the source prints it?",
    "unit": "{half}: in which unit?",
    "second_value": "Is the same value printed in a second unit?",
    "thread": "Thread of the fastener?",
    "class": "Strength class?",
    "source": "Which source?",
    "source_ref": "Which page?",
    "condition": "Under which condition does it hold?",
    "reuse": "May the fastener be used again?",
    "order": "Tightening order?",
    "cautions": "Which caution belongs to it?",
    "review_by": "Until when may it answer before somebody looks again?",
}
_HOW = {
    "make": "Write it as the maker does.",
    "model": "Write it as the maker does.",
    "years": "Write 2012, or 2012-2015 for a span.",
    "component": "Write its name; I show the nearest.",
    "position": "Or write it: front left upper.",
    "property": "",
    "only_if": "Or write it: engine=1.4T; drive=4WD",
    "value": "With its unit: 108 N·m, 30 N·m + 90 deg, 22.0 mm.",
    "unit": "I never take a unit for granted.",
    "second_value": "It shows slips: 80 lb-ft beside 108 N·m.",
    "thread": "M12x1.5 or 1/2-20.",
    "class": "As stamped on the head.",
    "source": "Title and edition, as printed.",
    "source_ref": "p. 92, section 3 ...",
    "condition": "As the source says it.",
    "reuse": "",
    "order": "1-3-2-4, crisscross ...",
    "cautions": "",
    "review_by": "Write year-month-day: 2027-03-31.",
}
_NAMES = {
    "make": "make", "model": "model", "years": "years", "component": "part", "position": "place",
    "property": "property", "only_if": "only for", "value": "value", "second_value": "second unit",
    "thread": "thread", "class": "class", "source": "source", "source_ref": "page", "condition": "condition",
    "reuse": "reuse", "order": "order", "cautions": "caution", "review_by": "review by",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class BookWording:
    """The sentences in one language; the defaults are English.

    ask, how, names: by field of a row. states: of a group. row_states: of a revision. concerns, levels: of a
    check. unfit: in place of what the rooms before say of a text that a field cannot hold, "" where they are heard
    themselves.
    """

    language: str = "en"
    ask: Mapping[str, str] = field(default_factory=lambda: _ASK)
    how: Mapping[str, str] = field(default_factory=lambda: _HOW)
    names: Mapping[str, str] = field(default_factory=lambda: _NAMES)
    states: Mapping[str, str] = field(
        default_factory=lambda: {
            "open": "open",
            "being filled": "being filled",
            "waiting": "waiting for a source",
            "filled": "filled",
            "set aside": "set aside",
        }
    )
    concerns: Mapping[Concern, str] = field(
        default_factory=lambda: {
            "two units": "two units",
            "bolt load": "bolt load",
            "outlier": "beside the book",
            "contradiction": "contradiction",
            "scope": "scope",
        }
    )
    levels: Mapping[Level, str] = field(
        default_factory=lambda: {"passed": "ok", "warning": "look", "refused": "not so"}
    )
    not_taken: Mapping[str, str] = field(default_factory=dict)
    recalled: Mapping[str, str] = field(default_factory=lambda: {"corrected": "corrected", "withdrawn": "withdrawn"})
    denied_reasons: Mapping[str, str] = field(default_factory=dict)
    row_states: Mapping[str, str] = field(
        default_factory=lambda: {
            "draft": "waits for approval",
            "verified": "checked",
            "sent back": "sent back",
            "dropped": "dropped",
            "withdrawn": "withdrawn",
        }
    )
    unfit: str = ""

    back: str = "Back"
    next_page: str = "Next"
    previous_page: str = "Previous"
    cancel: str = "Cancel"
    gone: str = "That is gone. /gaps shows what is open."
    nowhere: str = "no location"

    # gaps
    gaps_head_one: str = "1 thing was asked for in vain:"
    gaps_head_many: str = "{count} things were asked for in vain:"
    gaps_none: str = "Nobody waits for anything. The book answered all."
    gap_line: str = "{number}. {what}"
    gap_counts: str = "{people} waiting, asked {asks}x, last {last} · {places}"
    gap_state: str = "{state}: {why}"
    gap_word: str = "“{words}”: nobody knows what it means"
    gap_vehicle: str = "“{words}”: no such vehicle in the book"
    gap_asked: str = "{who}, {place}, {at}: “{question}”"
    gap_reason: str = "Why: {reason}"
    gap_nearby: str = "The book holds nearby (for you only):"
    gap_near_line: str = "{spec}: {value} · {what}"
    gap_fill: str = "Fill"
    gap_wait: str = "Wait for a source"
    gap_aside: str = "Set aside"
    gap_means: str = "What it means"
    gap_vehicle_name: str = "Vehicle name"
    gap_open: str = "Open again"
    gap_why_wait: str = "What source is awaited, from whom? Write it in one line."
    gap_why_aside: str = "Why is it set aside? Write it in one line."
    gap_set: str = "Noted: {state}."
    go_on: str = "Go on: {what}"
    go_on_alone: str = "Go on"

    # words and names of vehicles
    word_which: str = "“{said}”: which part is meant? Write its name; I show the nearest."
    word_nearest: str = "“{said}” is which of these? Or write it again."
    word_none: str = "I know no part like that. Write another name of it."
    word_taken: str = "From the next book on, “{said}” means {means}."
    word_refused: str = "“{said}” is not taken: {why}."
    name_which: str = "“{said}”: which vehicle is meant? Write make and model; I show the nearest."
    name_nearest: str = "“{said}” is which of these? Or write it again."
    name_none: str = "The book knows no vehicle like that. Write make and model."
    words_none: str = "The shop has no words of its own."
    words_head: str = "The shop's own words and names of vehicles:"
    words_line: str = "{number}. “{said}” = {means} ({name}, {day})"
    word_sure: str = "Take back “{said}”? From the next book on it does not mean {means} any more."
    word_back: str = "Take it back"
    word_gone: str = "“{said}” does not mean {means} any more, from the next book on."
    word_gone_before: str = "“{said}” was taken back before."
    word_read: str = "Answers of the last {days} days that were read through it, to be looked after:"
    word_read_line: str = "{number}. {name} ({place}), {at}: “{asked}”"
    word_read_none: str = "No answer of the last {days} days was read through it."
    other_words: str = "Other words"
    other_words_ask: str = "Which words of “{said}” are the name? Write just these."

    # filling
    taken: str = "{name} is filling this since {at}."
    handed_in: str = "{name} handed {spec} in for this. It waits for approval or for the next book."
    look: str = "Look at it"
    take_over: str = "Take over"
    taken_over: str = "{name} has taken this over."
    not_open: str = "This row is not being filled any more."
    keep_it: str = "Keep {value}"
    now_line: str = "Now: {value}"
    none_of_it: str = "None"
    not_printed: str = "Not printed"
    everyone: str = "No, for all"
    leave: str = "Leave it for now"
    left: str = "Kept as it is. /gaps goes on with it."
    unfit_line: str = "{wrong}. {mend}"
    still_open: str = "The row is still open:"
    preview_head: str = "So it will be answered:"
    preview_checked: str = "(whoever approves it)"
    preview_when: str = "(that day)"
    preview_scope: str = "For {vehicle}"
    evidence_one: str = "1 page attached"
    evidence_many: str = "{count} pages attached"
    submit: str = "Submit"
    change: str = "Change"
    add: str = "Add"
    drop: str = "Give up"
    drop_sure: str = "Give this row up? What was entered is gone then."
    drop_yes: str = "Yes, give up"
    dropped: str = "Given up. The gap is open again."
    change_which: str = "Change which field?"
    add_which: str = "Add what?"
    found_line: str = "{level} · {concern}: {told}"
    found_mend: str = "→ {mend}"
    refused_head: str = "Not taken yet:"
    warning_why: str = "Why is it right all the same? Write it in a few words, or change the row."
    submitted: str = "{spec} is submitted. Somebody else has to approve it: /book."
    send_told: str = "{name} submitted {spec}: {what}. It waits for approval: /book"

    # evidence
    photo_offer_one: str = "Keep this picture with the row as its source page?"
    photo_offer_many: str = "Keep these {count} pictures with the row as its source pages?"
    photo_keep: str = "Keep"
    photo_not: str = "No"
    photo_kept: str = "Kept with the row."
    photo_left: str = "Not kept."
    photo_refused: str = "A picture could not be kept: JPEG, PNG, WebP or PDF, at most 10 MB."

    # the book
    book_head: str = "Book {version} of {made_on}, {rows} rows"
    book_waiting: str = "To approve {count}"
    book_imported: str = "Drafts of tables {count}"
    book_questioned: str = "Questioned {count}"
    book_due: str = "Due {count}"
    book_recalls: str = "Recalls {count}"
    book_words: str = "The shop's words"
    book_publish: str = "Publish"
    book_coverage: str = "Coverage"
    book_digest: str = "Week"
    book_one_person: str = "One person"
    publish_asked: str = "I make the next book now and tell you."
    publish_sure: str = "Make the next book of everything approved?"
    publish_yes: str = "Yes, publish"
    publish_all_the_same: str = "All the same"
    publish_why: str = "Kept questions may come to something else then. Why is that right? Write it in one line."
    coverage_asked: str = "The picture is on its way."
    digest_asked: str = "The week's figures are on their way."

    # approving
    waiting_none: str = "Nothing waits for approval."
    waiting_head: str = "Waiting for approval:"
    waiting_imported: str = "Drafts that came in tables:"
    waiting_line: str = "{number}. {spec} by {name}: {what}, {value}"
    waiting_by: str = "{spec}, revision {revision}, by {name}, {at}"
    waiting_passed: str = "Passed all the same, {concern}: “{reason}” ({told})"
    approve: str = "Approve"
    send_back: str = "Send back"
    history: str = "History"
    withdraw: str = "Withdraw"
    withdraw_row: str = "Withdraw the row"
    drop_change: str = "Drop this change"
    drop_why: str = "Why is this change of {spec} dropped? Write it in one line. What answered before stays."
    change_dropped: str = "The change of {spec} is dropped."
    row_state: str = "{by}: {state}"
    approved: str = "{spec} is approved. It answers from the next book on."
    approved_alone: str = "{spec} is approved by its author alone; every answer will say so."
    send_back_why: str = "What has to be changed? Write it in one line; it goes to {name}."
    sent_back: str = "{spec} is back with {name}."
    sent_back_told: str = "{name} sent {spec} back: “{said}”. Its fields are kept: /gaps"
    withdraw_why: str = "The whole row {spec} stops answering then. Why is it withdrawn? Write it in one line."
    withdrawn: str = "{spec} is withdrawn and answers no more. Publish, and whoever was shown it is told."
    not_so: str = "Not done: {why}."
    correct: str = "Correct"
    evidence_line: str = "Source page: {file} ({kind}, {size} kB)"
    evidence_page: str = "Page"
    evidence_pages: str = "{count} pages"
    evidence_shown: str = "{spec}, page {number} of {count}: {source}, {source_ref}"
    evidence_lost: str = "The file of a page is gone from the bot's home: {file}. Take it from a backup."
    row_none: str = "There is no row {spec}."
    row_which: str = "/book and the id of a row shows it, such as /book D0001."

    # history
    step_line: str = "{at} {who}: {did}"
    step_change: str = "  {column}: {old} → {new}"
    step_why: str = "  why: {why}"

    # questioned answers, rows that are due, recalls
    questioned_none: str = "No answer is questioned."
    questioned_head: str = "Questioned answers:"
    questioned_line: str = "{number}. {spec}, {name} ({place}), {at}: “{said}”"
    questioned_right: str = "It is right"
    questioned_corrected: str = "Is corrected"
    questioned_withdrawn: str = "Is withdrawn"
    not_mended: str = "Not settled: {spec} still says what was questioned. Correct or withdraw it first."
    questioned_why: str = "What did you find? Write it in one line."
    settled: str = "Note {note} is settled."
    due_none: str = "No row is due for review in the next 30 days."
    due_head: str = "To be looked at again:"
    due_line: str = "{number}. {spec}, by {day}: {what}, {value}"
    recalls_none: str = "No value that was shown was corrected or withdrawn."
    recalls_head: str = "Recalls:"
    recall_line: str = "{spec} {what}: {seen} of {told} confirmed"
    recall_open: str = "  not yet: {names}"

    # one-person shops
    one_now_allowed: str = "One person alone may approve their own rows; every such answer says so."
    one_now_forbidden: str = "A second person has to approve every row but sockets."
    one_allow: str = "Allow"
    one_forbid: str = "Forbid"


ENGLISH = BookWording()


def bookwords_of(language: str) -> BookWording:
    """The sentences of a language; English where it is none of ours."""
    if language == "es":
        # read when first spoken, as most shops never speak it
        from benchbot.desk.bookwork.spanish import SPANISH

        return SPANISH
    return ENGLISH

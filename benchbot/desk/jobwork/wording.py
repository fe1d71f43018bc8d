"""Every sentence of the pages of a job, as plain data: the rest of the room only puts values in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from benchbot.jobs.open_points import PointKind
from benchbot.jobs.terms import Refused, RefusedAbout

_POINTS: dict[PointKind, str] = {
    "step": "step {number}, {title}: not done",
    "measurement": "{named}: no {property} measured",
    "fastener": "{named}: nobody has entered what it was tightened to",
    "bad": "{named}, {property}: {figure} was judged bad, and nothing good was measured since",
    "no value": "{named}: tightened to {set_to}, and the book holds no value; say where it came from",
    "differs": "{named}: set to {set_to} where the book says {target}; strike it out, or say why, such as an adapter",
    "second person": "{named}: no second person has confirmed it (tightened by {name})",
}


@dataclass(frozen=True, slots=True)
class JobWording:
    """The sentences in one language; the defaults are English.

    refusals: by what a refusal of the jobs' room is about; what is not there is said as that room says it. points: of
    an open point, by its kind. judged: of a line.
    """

    language: str = "en"
    refusals: Mapping[RefusedAbout, str] = field(default_factory=dict)
    points: Mapping[PointKind, str] = field(default_factory=lambda: _POINTS)
    judged: Mapping[str, str] = field(
        default_factory=lambda: {"good": "good", "bad": "BAD", "not judged": "not judged"}
    )
    whens: Mapping[str, str] = field(default_factory=lambda: {"before": "before", "after": "after the work"})

    back: str = "Back"
    next_page: str = "Next page"
    previous_page: str = "Previous page"
    cancel: str = "Cancel"
    go_on: str = "Go on"
    to_the_step: str = "To the step"

    # the list of jobs
    jobs_head: str = "Open jobs at {location}:"
    jobs_none: str = "No job is open at {location}."
    job_line: str = "{number}: {vehicle}, {title}, {settled} of {count} steps · {state}"
    job_in_hand: str = "in hand"
    job_paused: str = "paused by {name}"
    job_going: str = "begun by {name}"
    job_begin: str = "Begin a job"
    job_shop_words: str = "The shop's words"
    job_gone: str = "That job is not open any more. /job shows those that are."
    job_foreign: str = "That job belongs to another location."

    # beginning one
    vehicle_which: str = "Which vehicle? Write year, make and model."
    vehicle_lift: str = "On the lift: {vehicle}."
    vehicle_this: str = "This one"
    vehicle_unsure: str = "I need one vehicle with its model year. Write it with year, make and model."
    vehicle_strange: str = (
        "The book holds no such vehicle: every value will be missing. Begin with “{said}” all the same?"
    )
    vehicle_as_written: str = "As written"
    procedure_which: str = "{vehicle}. Which work? Press it, or write it."
    procedure_unsure: str = "I know no such work. Press one of these, or write its name."
    fitted_which: str = "{title}: what is fitted?"
    wheels_which: str = "{title}: which wheels? Chosen: {chosen}."
    wheels_all: str = "All four"
    wheels_none: str = "none yet"
    order_which: str = "Repair order number? Write it, or go on without. No names."
    order_without: str = "Without a number"
    begun: str = "Job {job} is begun: {title}, {vehicle}."
    applies: str = "For: {text}"
    tools: str = "Tools: {text}"
    consumables: str = "At hand: {text}"
    new_parts: str = "Always new: {text}"
    hands_free: str = "Hands full? Write: done, next, back, where am i, skip because ..."

    # a step
    step_head: str = "Job {job} · {vehicle} · step {number} of {count}"
    step_done: str = "This step is done ({name})."
    step_skipped: str = "This step was skipped by {name}: {reason}"
    shop_says: str = "Your shop says: {text}"
    stop: str = "STOP when: {when} Then: {do}"
    because: str = "Why: {text}"
    check: str = "Look at: {look}"
    check_good: str = "Good: {text}"
    check_bad: str = "Bad: {text}"
    check_then: str = "Then: {text}"
    judge: str = "The rule: {rule}"
    show_lead: str = "Show your lead tech before you go on."
    tighten: str = "Tighten {named}:"
    measure: str = "Measure {named}: {where}"
    not_held: str = "Do not guess a value. Get the maker's before you tighten it."
    still_wanted: str = "Still to enter here: {names}"
    entered: str = "Entered here:"
    measured_line: str = "{named}, {property}: {figure} ({when}), {judged}, {name}"
    tightened_line: str = "{named}: set to {set_to} with {tool}, {target}, {name}"
    target_was: str = "book {text}"
    target_none: str = "no value in the book"
    confirmed_by: str = "confirmed by {name}"
    other_did: str = "{name} has done that step already."
    other_skipped: str = "{name} has skipped that step already."
    not_marked: str = "Nothing is marked yet. This is the step: say it again."
    open_lines: str = "Done is noted. Not entered yet: {names}. It stays an open point."
    done: str = "Done"
    step_back: str = "Back"
    step_next: str = "Next"
    where_am_i: str = "Where am I"
    skip: str = "Skip"
    measured: str = "Measured"
    tightened: str = "Tightened"
    pause: str = "Pause"
    finish: str = "Finish"
    confirm: str = "Confirm wheels"
    shop_word: str = "Shop's word"
    no_more: str = "Every step is done or skipped. Finish the job when nothing is open."
    skip_why: str = "Why is “{title}” skipped? Write it in one line."

    # where am I
    where_head: str = "Job {job} · {vehicle} · {title}"
    where_order: str = "Repair order {number}"
    where_step: str = "You are at step {number} of {count}: {title}"
    where_settled: str = "{settled} of {count} steps are done or skipped. Open points: {points}."
    where_learned: str = "Told on the way: {told}"
    ask_again: str = "That is wrong, ask again"
    where_people: str = "At work: {names}"
    open_points: str = "Open points"
    overview: str = "Overview"
    corrections: str = "Entered wrong?"

    # measuring
    measure_ask: str = (
        "{named}, {property}, {when}: what did you read? Write figure and unit, or several: 22.41 22.40 mm"
    )
    measure_unit: str = "{figures}: in which unit?"
    measure_figure: str = "That is no figure I can keep. Write it as 22.4 mm, or several as 22.41 22.40 mm."
    measure_length: str = "That is no length. Write it in mm, in or thou."
    measure_after: str = "It is after the work"
    measure_before: str = "It is before the work"
    measure_which: str = "Which measurement?"
    measure_none: str = "This step asks for no measurement."
    measure_next: str = "Next:"
    measure_unmatched: str = "No limit could be settled for it: it is kept, and not judged."
    not_in_job: str = "{figures}: not in job {job} yet."
    put_in: str = "Put it in the job: {line}"
    another: str = "Another one"

    # tightening
    tighten_ask: str = "{named}: what did you set, and with which tool? Write: 105 N·m, wrench 4"
    tighten_tool: str = "Set to {set_to}. With which tool? Write its mark."
    tighten_unit: str = "Say the unit as well: 105 N·m, wrench 4."
    tighten_which: str = "Which fastener?"
    tighten_none: str = "This step tightens nothing."
    tighten_differs: str = (
        "You set {set_to} where the book says {target}. It is an open point until it is struck out, or somebody says "
        "why, such as an adapter."
    )
    differs_explain: str = "Say why"
    differs_mark: str = "NOT THE BOOK'S VALUE"
    differs_why: str = "NOT THE BOOK'S VALUE: {reason}"
    tighten_second: str = "A second person confirms it from their own phone: /job, then Confirm wheels."
    on_line: str = "On record: {line}"

    # corrections
    strike_which: str = "Which line was entered wrong? It stays on record, struck out."
    order_wrong: str = "The repair order number"
    order_right: str = "Which repair order number is right? No names."
    strike_none: str = "Nothing was entered yet."
    strike_why: str = "What is wrong with “{line}”? Write it in one line."
    struck: str = "Struck out: {line}"

    # confirming
    confirm_ask: str = "Check each with a torque wrench yourself, then confirm:"
    confirm_yes: str = "Checked, all of them"
    confirm_none: str = "No wheel waits for a second person."
    confirm_own: str = "You tightened these yourself. Somebody else confirms them from their own phone:"
    confirm_done: str = "Confirmed, with your name."
    confirm_more: str = "Something was entered since. Look again, then confirm."

    # pausing
    paused: str = "Job {job} rests. Anybody at {location} goes on with it: /job"
    resume: str = "Go on with it"
    job_rests: str = "Job {job}, {vehicle}: paused by {name}, {at}."

    # finishing
    points_head: str = "Open before job {job} is finished:"
    points_none: str = "Nothing is open. Finish job {job}?"
    point_explain: str = "Say why"
    point_done: str = "It is done"
    point_enter: str = "Enter it"
    point_why: str = "Why does it stay open? Write it in one line, two words at least."
    point_who: str = "Who decided that, such as your lead tech? Write the name."
    finish_yes: str = "Yes, finish"
    finished: str = "Job {job} is finished. Its record follows, as PDF and JSON."
    finished_by: str = "Job {job} was finished by {name}."
    papers_again: str = "Send the papers again"
    papers_sent: str = "They are on their way again."
    paper_none: str = "No PDF: {why}"
    paper_record: str = "Job {job}, record for the file"
    paper_plain: str = "Job {job}, the same for programs"
    paper_slip: str = "Job {job}, re-torque slip"
    re_torque: str = "Wheels again: {when}."
    re_torque_distance: str = "after {distance}"
    re_torque_day: str = "on {day}"
    re_torque_or: str = " or "

    # the shop's own words
    words_which: str = "The shop's word for a step of which work?"
    words_step: str = "{title}: which step? * has a word of the shop."
    words_now: str = "Your shop says now: {text}"
    words_none: str = "The shop says nothing of its own here."
    words_set: str = "Write"
    words_end: str = "End it"
    words_ask: str = (
        "What does {location} say to “{title}”? It stands above the step and takes no caution away. No torques."
    )
    words_kept: str = "Kept. It is shown in jobs that begin from now on."
    words_ended: str = "Ended. Jobs that begin from now on show it no more."

    def refused(self, refused: Refused) -> str:
        """Why nothing was put on record."""
        form = self.refusals.get(refused.about)
        return refused.reason if form is None else form.format(choices=", ".join(refused.choices))


ENGLISH = JobWording()


def jobwords_of(language: str) -> JobWording:
    """The sentences of a language; English where it is none of ours."""
    if language == "es":
        # read when first spoken, as most shops never speak it
        from benchbot.desk.jobwork.spanish import SPANISH

        return SPANISH
    return ENGLISH

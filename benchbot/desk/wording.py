"""Every sentence that the desk itself says, as plain data: the rest of the room only puts values in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from benchbot.people.terms import About, Decision, Refused


@dataclass(frozen=True, slots=True)
class Wording:
    """The sentences in one language; the defaults are English.

    refusals, denials: what the people's room says in English, by what a refusal is about and by a denial's own words;
    what is not there is said as that room says it.
    """

    language: str = "en"
    refusals: Mapping[About, str] = field(default_factory=dict)
    denials: Mapping[str, str] = field(default_factory=dict)

    # to whoever is no member
    outside: str = "Ask your shop for an invite."
    code_refused: str = "This code does not work. Ask your shop for a new invite."
    nobody: str = "I cannot see who asks. Write as yourself, not in the name of the group."

    # joining and greeting
    joined: str = "You are in: {role} at {location}."
    raised: str = "You are {role} at {location} now."
    joined_before: str = "You belong to {location} already, as {role}."
    greeting: str = "{name}, you stand at {location} ({role})."
    greeting_which: str = "{name}, you belong to {count} locations. Where do you stand?"
    ask_away: str = "Ask for a figure: year, make and model, the part, front or rear."
    maker_first: str = "The vehicle maker's current service information, local codes and licensed practice come first."
    roles_technician: str = "technician"
    roles_curator: str = "curator"
    roles_owner: str = "owner"

    # help
    help_head: str = "Ask for one vehicle and one part. For example:"
    help_rules: str = (
        "I never guess: what decides the value I ask for, and what the book does not hold goes to the curator."
    )
    help_words: str = "Choices can be tapped or typed. A changed question changes its answer."
    unknown_command: str = "I do not know /{command}. /help says what I can do."
    ask_what: str = "Write the question behind it: /ask year, make and model, the part, front or rear."
    menu_start: str = "Join with a code from your shop"
    menu_ask: str = "Ask for a figure"
    menu_vehicle: str = "Vehicle on the lift"
    menu_job: str = "Walk a job step by step"
    menu_location: str = "Where I stand"
    menu_help: str = "How to ask"
    menu_gaps: str = "What nobody could answer"
    menu_book: str = "Approve, publish, recalls"
    menu_people: str = "Members of a location"
    menu_invite: str = "Invite somebody"
    menu_locations: str = "Locations and their settings"

    # buttons of an answer, and what presses are answered with
    other_unit: str = "Other unit"
    more: str = "More"
    less: str = "Less"
    how_read: str = "How I read that"
    not_right: str = "Not right?"
    left_out_one: str = "1 part is left out, as one message holds no more. Ask for it by itself:"
    left_out_many: str = "{count} parts are left out, as one message holds no more. Ask for each by itself:"
    left_out_rest: str = "The rest is left out, as one message holds no more. Ask for less at once."
    left_out_whole: str = (
        "This answer is longer than one message holds, and I do not show it in pieces. Tell your curator."
    )
    pressed_old: str = "That question is closed. Ask again."
    pressed_done: str = "That is answered already."
    pressed_foreign: str = "That is {name}'s. Ask your own."
    pressed_foreign_unnamed: str = "That belongs to somebody else. Ask your own."
    pressed_gone: str = "That is too old. Ask again."
    book_changed: str = "The book has changed since. Ask again."
    changed_mark: str = "Changed: read again after your edit."

    changed_ask_anew: str = "The chat has gone on since: ask it as a new message to choose."

    # not right?
    note_ask: str = "What is not right? Write it in one line; it goes to the curator."
    note_ask_in_group: str = "What is not right? Reply to this with one line; it goes to the curator."
    note_line: str = "You marked this as not right. Do not use it before the curator has looked."
    note_again: str = "You marked that already."
    note_kept: str = "Note {number} is with the curator. Thank you."
    note_skip: str = "No words"
    note_told: str = "{name} ({location}) marked an answer as not right, note {number}:"
    note_words: str = "To note {number}:"

    # pictures; those of wear are titled by the part that wears
    picture: str = "Picture"
    picture_studs: str = "How many studs does the wheel have?"
    picture_order: str = "Tightening order, {studs} studs: {order}"
    picture_rotor: str = "Where a rotor is measured"
    picture_wear: Mapping[str, str] = field(
        default_factory=lambda: {"rotor": "Rotor thickness", "lining": "Lining thickness", "": "Thickness"}
    )
    picture_was: str = "before"
    picture_now: str = "now"
    picture_limit: str = "limit"
    picture_sent: str = "That picture is here already."
    picture_none: str = "No picture can be drawn here. Tell whoever looks after the bot."

    # what is told without having been asked for just then
    done_already: str = "Done already"
    done_noted: str = "Noted: you need no answer to that any more."
    done_before: str = "You said so already."
    recall_thanks: str = "Thank you."
    recall_before: str = "You confirmed that already."
    recall_seen: str = "Confirmed on {date}."

    # what cannot be answered as it came
    media: str = "I read text only. Write year, make and model, the part, front or rear."
    late: str = (
        "I was away. What was asked more than five minutes ago is left unanswered: ask again what you still need."
    )
    too_many: str = "That is more than I can take at once. Wait a minute, then ask again."
    fault: str = "Something went wrong on my side and was logged. Ask again; if it stays so, tell your curator."
    unsure: str = "I cannot tell whether my last message reached you."
    show_it: str = "Show it"
    again_gone: str = "That message is not kept any more. Ask again."
    again_newer: str = "That is not how it stands any more. Look at the newer message here, or ask again."

    # the vehicle on the lift
    lift_now: str = "On the lift: {vehicle}."
    lift_none: str = "No vehicle is on the lift. Name one with its year: /vehicle 15 make model."
    lift_asked_again: str = "I ask again after {hours} h, or when another vehicle was named."
    lift_change: str = "Change to:"
    lift_clear: str = "Clear"

    # where one stands
    stand_which: str = "Where do you stand?"
    stand_now: str = "You stand at {location} ({role})."
    stand_only: str = "You stand at {location} ({role}). It is the only location you belong to."

    # locations
    locations_head: str = "Your locations"
    locations_none: str = "You own no location."
    location_add: str = "Add a location"
    location_ask_name: str = "What is the new location called? Write its name."
    location_added: str = "{location} is there, and you are its owner."
    members_one: str = "1 member"
    members_many: str = "{count} members"
    open_invites_one: str = "1 open invite"
    open_invites_many: str = "{count} open invites"
    location_settings: str = "Units first: {units} · language: {language} · vehicle kept {hours} h"
    location_rename: str = "Rename"
    location_ask_rename: str = "What is {location} to be called? Write the new name."
    location_renamed: str = "Now called {location}."
    name_sure: str = "That reads like a question. Call it {name}?"
    name_yes: str = "Yes, call it that"
    name_no: str = "No, answer it"
    location_units: str = "Units"
    location_language: str = "Language"
    location_hours: str = "Vehicle kept"
    location_quiet: str = "Quiet hours"
    location_clock: str = "Clock"
    location_members: str = "Members"
    location_invite: str = "Invite"
    location_invites: str = "Open invites"
    back: str = "Back"
    cancel: str = "Cancel"
    units_which: str = "Which unit goes first behind the value of the source?"
    units_source: str = "As the book has it"
    units_metric: str = "N·m, mm, L"
    units_us: str = "lb-ft, in, qt"
    language_which: str = "Which language does {location} speak?"
    quiet_from_to: str = "Quiet from {begins} to {ends}, by the clock of {zone}"
    quiet_never: str = "Never quiet, by the clock of {zone}"
    quiet_no: str = "Never"
    quiet_which: str = (
        "When is it quiet at {location}? Answers that somebody waits for come after it, recalls at once. "
        "It is {now} there."
    )
    clock_which: str = "Which clock hangs at {location}? Any other zone is set by: benchbot people hours"
    hours_which: str = "After how many hours do I ask again which vehicle is on the lift?"

    # members
    members_head: str = "Members of {location}"
    members_which: str = "Members of which location?"
    member_line: str = "{name}: {role}, since {since}"
    member_role: str = "Make {role}"
    member_remove: str = "Remove"
    member_remove_sure: str = "Remove {name} from {location}? From then on I answer them nothing."
    member_remove_yes: str = "Yes, remove"
    member_removed: str = "{name} is removed from {location}."
    member_changed: str = "{name} is {role} at {location} now."
    member_told_role: str = "You are {role} at {location} now."
    member_gone: str = "They are no member any more."
    next_page: str = "Next"
    previous_page: str = "Previous"

    # invites
    invite_where: str = "Invite to which location?"
    invite_role: str = "Invite whom to {location}?"
    invite_kind: str = "An invite as {role} to {location}: for how many?"
    invite_one: str = "One person, 2 days"
    invite_wall: str = "On the wall: 20 people, 30 days"
    invite_title: str = "Benchbot at {location}"
    invite_caption: str = "Scan to join {location} as {role}"
    invite_link: str = "Or open {link}"
    invite_by_hand: str = "Or write this code to @{bot}: {code}"
    invite_at_terminal: str = "At a terminal of the shop: benchbot chat --as NAME, then /start {code}"
    invite_until: str = "For {uses}, until {until} UTC."
    invite_uses_one: str = "one person"
    invite_uses_many: str = "{count} people"
    invite_revoke: str = "Revoke"
    invite_revoked: str = "Revoked. Nobody can join with it any more."
    invites_none: str = "No invite to {location} is open."
    invites_head: str = "Open invites to {location}"
    invite_line: str = "{shown}…: {role}, {left}, until {until} UTC"
    invite_left_one: str = "1 left"
    invite_left_many: str = "{count} left"
    invite_made: str = "The invite is below. Send it on, or print it and pin it on the wall."

    def refused(self, refused: Refused) -> str:
        """Why nothing was changed."""
        return self.refusals.get(refused.about, refused.reason)

    def denied(self, decision: Decision) -> str:
        """Why somebody may not do a thing."""
        return self.denials.get(decision.reason, decision.reason)


def counted(count: int, one: str, many: str) -> str:
    """The form of a sentence for that many; `many` may have a blank for the count."""
    return one if count == 1 else many.format(count=count)


ENGLISH = Wording()


def wording_of(language: str) -> Wording:
    """The sentences of a language; English where a location's language is none of ours."""
    if language == "es":
        # read when first spoken, as most shops never speak it
        from benchbot.desk.spanish import SPANISH

        return SPANISH
    return ENGLISH

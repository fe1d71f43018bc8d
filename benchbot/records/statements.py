"""The statements used while answering: plain SQL that SQLite and PostgreSQL both take, with :named values."""

from __future__ import annotations

CHAT_STATE = "SELECT state FROM chat_state WHERE chat = :chat AND expires_at > :now"

SEEN = """
SELECT answer.reply FROM seen_message JOIN answer ON answer.answer = seen_message.answer
WHERE seen_message.chat = :chat AND seen_message.message = :message
"""

SEEN_GAP = """
SELECT gap.gap, seen_message.answer FROM seen_message LEFT JOIN gap ON gap.answer = seen_message.answer
WHERE seen_message.chat = :chat AND seen_message.message = :message
"""

PUT_ANSWER = """
INSERT INTO answer (chat, person, asked, reading, outcome, reply, at, book_version, location)
VALUES (:chat, :person, :asked, :reading, :outcome, :reply, :at, :book_version, :location) RETURNING answer
"""

PUT_ANSWER_SPEC = "INSERT INTO answer_spec (answer, spec, revision) VALUES (:answer, :spec, :revision)"

PUT_GAP = """
INSERT INTO gap (answer, question, reading, reason, detail, chat, person, at, state, waits, location, memory)
VALUES (:answer, :asked, :reading, :reason, :detail, :chat, :person, :at, 'open', 1, :location, :memory) RETURNING gap
"""

# The update changes nothing; it brings the number where the meaning is on record, and holds it against other writers.
PUT_MEANING = """
INSERT INTO meaning
(kind, identity, make, model, years, only_if, component, position, property, words, state, why, author, at)
VALUES
(:kind, :identity, :make, :model, :years, :only_if, :component, :position, :property, :words, 'open', '', '', :at)
ON CONFLICT (identity) DO UPDATE SET identity = excluded.identity RETURNING meaning, state
"""

PUT_GAP_PART = """
INSERT INTO gap_part (gap, meaning, reason) VALUES (:gap, :meaning, :reason) ON CONFLICT (gap, meaning) DO NOTHING
"""

SET_MEANING = "UPDATE meaning SET state = :state, why = :why, author = :author, at = :at WHERE meaning = :meaning"

PUT_MEANING_CHANGE = """
INSERT INTO meaning_change (meaning, state, why, author, at) VALUES (:meaning, :state, :why, :author, :at)
"""

CLOSE_EDITED_GAP = "UPDATE gap SET state = 'edited' WHERE answer = :instead_of AND state = 'open'"

PUT_SEEN = "INSERT INTO seen_message (chat, message, answer) VALUES (:chat, :message, :answer)"

PUT_CHAT_STATE = """
INSERT INTO chat_state (chat, state, updated_at, expires_at) VALUES (:chat, :state, :at, :expires_at)
ON CONFLICT (chat) DO UPDATE SET
state = excluded.state, updated_at = excluded.updated_at, expires_at = excluded.expires_at
"""

MIGRATION = "SELECT version_num FROM alembic_version"

ALL = (
    CHAT_STATE, SEEN, SEEN_GAP, PUT_ANSWER, PUT_ANSWER_SPEC, PUT_GAP, PUT_MEANING, PUT_GAP_PART, SET_MEANING,
    PUT_MEANING_CHANGE, CLOSE_EDITED_GAP, PUT_SEEN, PUT_CHAT_STATE,
)  # fmt: skip

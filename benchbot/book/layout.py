"""The tables of a book file, and the marks that tell it from any other SQLite file."""

from __future__ import annotations

# "BBOK" as a number; the layout counts up when an older reader could no longer read the file.
APPLICATION = 0x42424F4B
LAYOUT = 2
# Books of this layout know of no row that one person alone has checked; they go on answering until the next is made.
BEFORE_ONE_PERSON = 1
READABLE = (BEFORE_ONE_PERSON, LAYOUT)
# The table of the vocabulary holds the procedures in a row of their own, which older books of any layout lack.

_TABLES = f"""
PRAGMA application_id = {APPLICATION};
PRAGMA user_version = {{layout}};
CREATE TABLE about (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
CREATE TABLE vocabulary (name TEXT PRIMARY KEY, body TEXT NOT NULL) STRICT;
CREATE TABLE make (make INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE) STRICT;
CREATE TABLE vehicle (
    vehicle INTEGER PRIMARY KEY, make INTEGER NOT NULL REFERENCES make, model TEXT NOT NULL, UNIQUE (make, model)
) STRICT;
CREATE TABLE vehicle_word (
    word TEXT NOT NULL, "of" TEXT NOT NULL, id INTEGER NOT NULL, form INTEGER NOT NULL, words INTEGER NOT NULL,
    PRIMARY KEY (word, "of", id, form)
) STRICT, WITHOUT ROWID;
CREATE TABLE near_word (key TEXT NOT NULL, word TEXT NOT NULL, PRIMARY KEY (key, word)) STRICT, WITHOUT ROWID;
CREATE TABLE narrowing (only_if TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE component (component INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE) STRICT;
CREATE TABLE figure (
    figure INTEGER PRIMARY KEY, property TEXT NOT NULL, value TEXT NOT NULL, second_value TEXT NOT NULL,
    shown TEXT NOT NULL
) STRICT;
CREATE TABLE handling (
    handling INTEGER PRIMARY KEY, thread TEXT NOT NULL, class TEXT NOT NULL, condition TEXT NOT NULL,
    reuse TEXT NOT NULL, tightening_order TEXT NOT NULL, cautions TEXT NOT NULL
) STRICT;
CREATE TABLE checked (
    checked INTEGER PRIMARY KEY, source TEXT NOT NULL, checked_by TEXT NOT NULL, checked_on TEXT NOT NULL,
    review_by TEXT NOT NULL{{one_person}}
) STRICT;
CREATE TABLE spec (
    row INTEGER PRIMARY KEY, spec TEXT NOT NULL, revision INTEGER NOT NULL,
    vehicle INTEGER NOT NULL REFERENCES vehicle, year_from INTEGER NOT NULL, year_to INTEGER NOT NULL,
    only_if TEXT NOT NULL, component INTEGER NOT NULL REFERENCES component, position TEXT NOT NULL,
    figure INTEGER NOT NULL REFERENCES figure, handling INTEGER NOT NULL REFERENCES handling,
    checked INTEGER NOT NULL REFERENCES checked, source_ref TEXT NOT NULL
) STRICT;
"""

# Made once the rows are in: sorting once is cheaper than keeping order through a million inserts.
INDEXES = """
CREATE INDEX spec_by_vehicle ON spec (vehicle, component);
CREATE UNIQUE INDEX spec_by_id ON spec (spec);
"""


def tables(layout: int = LAYOUT) -> str:
    """The statements that make the tables of a layout of READABLE."""
    one_person = "" if layout == BEFORE_ONE_PERSON else ", one_person INTEGER NOT NULL"
    return _TABLES.format(layout=layout, one_person=one_person)

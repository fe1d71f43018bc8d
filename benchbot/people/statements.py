"""The statements about people: plain SQL that SQLite and PostgreSQL both take, with :named values."""

from __future__ import annotations

# A change of a location, its members or its invites begins with one of these two: on a server, a second change of the
# same then waits for the first to end, and reads what it left.
HOLD_LOCATION = """
UPDATE location SET name = name WHERE location = :location
RETURNING location, name, units, language, vehicle_hours
"""

HOLD_LOCATIONS = "UPDATE location SET name = name"

LOCATION = "SELECT location, name, units, language, vehicle_hours FROM location WHERE location = :location"

LOCATIONS = "SELECT location, name, units, language, vehicle_hours FROM location"

PUT_LOCATION = """
INSERT INTO location (name, units, language, vehicle_hours, at)
VALUES (:name, :units, :language, :vehicle_hours, :at) RETURNING location
"""

RENAME_LOCATION = "UPDATE location SET name = :name WHERE location = :location"

SET_DEFAULTS = """
UPDATE location SET units = :units, language = :language, vehicle_hours = :vehicle_hours WHERE location = :location
"""

# Where a person may be: their memberships, each with the place that they last said they stand in.
MEMBERSHIPS = """
SELECT location.location, location.name, location.units, location.language, location.vehicle_hours,
membership.role, person.standing
FROM membership
JOIN location ON location.location = membership.location
JOIN person ON person.person = membership.person
WHERE membership.person = :person
"""

ROLE = "SELECT role FROM membership WHERE person = :person AND location = :location"

MEMBER = """
SELECT membership.person, person.name, membership.role, membership.at
FROM membership JOIN person ON person.person = membership.person
WHERE membership.person = :person AND membership.location = :location
"""

MEMBERS = """
SELECT membership.person, person.name, membership.role, membership.at
FROM membership JOIN person ON person.person = membership.person
WHERE membership.location = :location
"""

COUNTS = "SELECT location, role, count(*) FROM membership GROUP BY location, role"

OTHER_OWNERS = """
SELECT count(*) FROM membership WHERE location = :location AND role = 'owner' AND person <> :person
"""

NAME = "SELECT name FROM person WHERE person = :person"

RENAME_PERSON = "UPDATE person SET name = :name WHERE person = :person"

STAND = "UPDATE person SET standing = :location WHERE person = :person"

STAND_NO_MORE = "UPDATE person SET standing = NULL WHERE person = :person AND standing = :location"

PUT_PERSON = """
INSERT INTO person (person, name, standing, at) VALUES (:person, :name, NULL, :at)
ON CONFLICT (person) DO UPDATE SET name = excluded.name
"""

# An author who has never told a name is known by what they are.
PUT_AUTHOR = """
INSERT INTO person (person, name, standing, at) VALUES (:person, :person, NULL, :at) ON CONFLICT (person) DO NOTHING
"""

PUT_MEMBERSHIP = """
INSERT INTO membership (person, location, role, at) VALUES (:person, :location, :role, :at)
ON CONFLICT (person, location) DO UPDATE SET role = excluded.role
"""

TAKE_MEMBERSHIP = "DELETE FROM membership WHERE person = :person AND location = :location"

PUT_CHANGE = """
INSERT INTO membership_change (person, location, role, author, at) VALUES (:person, :location, :role, :author, :at)
"""

CHANGES = """
SELECT author, at FROM membership_change WHERE person = :person AND location = :location ORDER BY entry DESC
"""

PUT_INVITE = """
INSERT INTO invite (digest, shown, location, role, uses_left, expires_at, author, at, revoked_at)
VALUES (:digest, :shown, :location, :role, :uses, :expires_at, :author, :at, '') RETURNING invite
"""

INVITE_PLACE = "SELECT location FROM invite WHERE digest = :digest"

INVITE_OF_CODE = """
SELECT invite, shown, location, role, uses_left, expires_at, revoked_at, at FROM invite WHERE digest = :digest
"""

INVITE = """
SELECT invite, shown, location, role, uses_left, expires_at, revoked_at FROM invite WHERE invite = :invite
"""

OPEN_INVITES = """
SELECT invite, shown, location, role, uses_left, expires_at, revoked_at FROM invite
WHERE location = :location AND uses_left > 0 AND revoked_at = '' AND expires_at > :now ORDER BY invite
"""

USE_INVITE = "UPDATE invite SET uses_left = uses_left - 1 WHERE invite = :invite"

REVOKE_INVITE = """
UPDATE invite SET revoked_at = :now WHERE invite = :invite AND revoked_at = ''
RETURNING invite, shown, location, role, uses_left, expires_at, revoked_at
"""

REVOKE_INVITES_BY = """
UPDATE invite SET revoked_at = :now
WHERE location = :location AND author = :author AND uses_left > 0 AND revoked_at = '' AND expires_at > :now
RETURNING invite
"""

ALL = (
    HOLD_LOCATION,
    HOLD_LOCATIONS,
    LOCATION,
    LOCATIONS,
    PUT_LOCATION,
    RENAME_LOCATION,
    SET_DEFAULTS,
    MEMBERSHIPS,
    ROLE,
    MEMBER,
    MEMBERS,
    COUNTS,
    OTHER_OWNERS,
    NAME,
    RENAME_PERSON,
    STAND,
    STAND_NO_MORE,
    PUT_PERSON,
    PUT_AUTHOR,
    PUT_MEMBERSHIP,
    TAKE_MEMBERSHIP,
    PUT_CHANGE,
    CHANGES,
    PUT_INVITE,
    INVITE_PLACE,
    INVITE_OF_CODE,
    INVITE,
    OPEN_INVITES,
    USE_INVITE,
    REVOKE_INVITE,
    REVOKE_INVITES_BY,
)

#include "history/schema.h"

namespace coilward {

// Version 2. What a pickup's fields were given takes the place of what they were before, since only that can
// be brought together with another bench's edits; attachments. Never edited once released (docs/history.md).
const char* const schema_0002 = R"sql(
CREATE TABLE pickup_values (
    pickup_id INTEGER NOT NULL REFERENCES pickups,
    edit_uid BLOB NOT NULL CHECK (length(edit_uid) = 16),  -- shared by all values of one edit; the pickup's own uid:
                                                           -- what it was kept with
    field TEXT NOT NULL,                                   -- a column of pickups, or coils
    value TEXT NOT NULL,                                   -- what it was given; the last by (at_ms, edit_uid) holds
    at_ms INTEGER NOT NULL,
    PRIMARY KEY (pickup_id, edit_uid, field, value)
) STRICT, WITHOUT ROWID;

-- A field without a row here was never edited: it has what the pickup was kept with.
WITH now AS (
    SELECT pickup_id, 'name' AS field, name AS value FROM pickups
    UNION ALL SELECT pickup_id, 'owner', owner FROM pickups
    UNION ALL SELECT pickup_id, 'instrument', instrument FROM pickups
    UNION ALL SELECT pickup_id, 'pickup_type', pickup_type FROM pickups
    UNION ALL SELECT pickup_id, 'notes', notes FROM pickups
    UNION ALL SELECT pickup_id, 'coils', ifnull((
        SELECT group_concat(word, ' ') FROM (
            SELECT CASE WHEN name = '' THEN coil_model ELSE name || '=' || coil_model END AS word
            FROM pickup_coils AS c WHERE c.pickup_id = p.pickup_id ORDER BY position)), '') FROM pickups AS p
), counted AS (
    SELECT *, row_number() OVER (PARTITION BY pickup_id, field ORDER BY change_id) AS place
    FROM pickup_changes
), edits AS (
    -- Each later than the one before it, by a millisecond where the clock did not say so.
    SELECT *, place + max(at_ms - place) OVER past AS later_ms,
           lead(former) OVER (PARTITION BY pickup_id, field ORDER BY place) AS next_former
    FROM counted WINDOW past AS (PARTITION BY pickup_id, field ORDER BY place ROWS UNBOUNDED PRECEDING)
)
INSERT INTO pickup_values
SELECT pickup_id, uid, field, former, added_ms FROM edits JOIN pickups USING (pickup_id) WHERE place = 1
UNION ALL
SELECT pickup_id, edit_uid, field, ifnull(next_former, value), later_ms FROM edits JOIN now USING (pickup_id, field);

DROP TABLE pickup_changes;

CREATE TABLE contents (
    sha256 BLOB PRIMARY KEY NOT NULL CHECK (length(sha256) = 32), -- FIPS 180-4, of the bytes
    bytes BLOB NOT NULL
) STRICT;

CREATE TABLE attachments (
    attachment_id INTEGER PRIMARY KEY,
    uid BLOB NOT NULL UNIQUE CHECK (length(uid) = 16),
    pickup_id INTEGER NOT NULL REFERENCES pickups,
    at_ms INTEGER NOT NULL,
    name TEXT NOT NULL,                                    -- of the file that was attached
    media_type TEXT NOT NULL,                              -- IANA, as image/jpeg
    note TEXT NOT NULL,
    sha256 BLOB NOT NULL REFERENCES contents
) STRICT;
CREATE INDEX attachments_by_pickup ON attachments (pickup_id);

CREATE TRIGGER pickup_values_no_update BEFORE UPDATE ON pickup_values
BEGIN SELECT RAISE(ABORT, 'a former value is never edited'); END;
CREATE TRIGGER pickup_values_no_delete BEFORE DELETE ON pickup_values
BEGIN SELECT RAISE(ABORT, 'a former value is never deleted'); END;
CREATE TRIGGER pickup_values_no_replace BEFORE INSERT ON pickup_values
WHEN EXISTS (SELECT 1 FROM pickup_values WHERE pickup_id = NEW.pickup_id AND edit_uid = NEW.edit_uid
             AND field = NEW.field AND value = NEW.value)
BEGIN SELECT RAISE(ABORT, 'this edit is kept already'); END;

CREATE TRIGGER contents_no_update BEFORE UPDATE ON contents
BEGIN SELECT RAISE(ABORT, 'an attached file is never edited; attach another'); END;
CREATE TRIGGER contents_no_delete BEFORE DELETE ON contents
BEGIN SELECT RAISE(ABORT, 'an attached file is never deleted'); END;
CREATE TRIGGER contents_no_replace BEFORE INSERT ON contents
WHEN EXISTS (SELECT 1 FROM contents WHERE sha256 = NEW.sha256)
BEGIN SELECT RAISE(ABORT, 'this file is kept already'); END;

CREATE TRIGGER attachments_no_update BEFORE UPDATE ON attachments
BEGIN SELECT RAISE(ABORT, 'an attachment is never edited; attach another'); END;
CREATE TRIGGER attachments_no_delete BEFORE DELETE ON attachments
BEGIN SELECT RAISE(ABORT, 'an attachment is never deleted'); END;
CREATE TRIGGER attachments_no_replace BEFORE INSERT ON attachments
WHEN EXISTS (SELECT 1 FROM attachments WHERE attachment_id = NEW.attachment_id
             UNION ALL SELECT 1 FROM attachments WHERE uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'this attachment is kept already'); END;
)sql";

} // namespace coilward

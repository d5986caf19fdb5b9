-- A history of schema version 3 as it lies on benches. Frozen: every later program must still read it. Its pickups and
-- readings are invented; codes were chosen by hand from the comments and the table `words`, times by `date -d … +%s`.
PRAGMA application_id = 1131374956; -- 0x436f696c, "Coil"
PRAGMA user_version = 3;

CREATE TABLE pickups (
    pickup_id INTEGER PRIMARY KEY,                         -- the number by which this bench names it
    uid BLOB NOT NULL UNIQUE CHECK (length(uid) = 16),     -- the same on every bench
    added_ms INTEGER NOT NULL,                             -- every time: milliseconds since 1970-01-01T00:00:00Z
    name TEXT NOT NULL CHECK (name <> ''),
    slug TEXT NOT NULL,                                    -- the name, simplified for typing
    owner TEXT NOT NULL,
    instrument TEXT NOT NULL,
    pickup_type TEXT NOT NULL,                             -- a file in rules/pickups
    notes TEXT NOT NULL,
    searchable TEXT NOT NULL                               -- all of the above and the coils, in lower case, for searching
) STRICT;
CREATE INDEX pickups_by_slug ON pickups (slug);

CREATE TABLE pickup_coils (
    pickup_id INTEGER NOT NULL REFERENCES pickups,
    position INTEGER NOT NULL,
    name TEXT NOT NULL,                                    -- empty for the only coil
    coil_model TEXT NOT NULL,                              -- a file in rules/coils
    PRIMARY KEY (pickup_id, position),
    UNIQUE (pickup_id, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE pickup_changes (
    change_id INTEGER PRIMARY KEY,
    edit_uid BLOB NOT NULL CHECK (length(edit_uid) = 16),  -- shared by all changes of one edit
    pickup_id INTEGER NOT NULL REFERENCES pickups,
    at_ms INTEGER NOT NULL,
    field TEXT NOT NULL,                                   -- a column of pickups, or coils
    former TEXT NOT NULL,                                  -- the value that was replaced
    UNIQUE (edit_uid, field)
) STRICT;
CREATE INDEX pickup_changes_by_pickup ON pickup_changes (pickup_id);

CREATE TABLE visits (
    visit_id INTEGER PRIMARY KEY,
    uid BLOB NOT NULL UNIQUE CHECK (length(uid) = 16),
    pickup_id INTEGER NOT NULL REFERENCES pickups,
    at_ms INTEGER NOT NULL,
    stage TEXT NOT NULL,
    rewound INTEGER NOT NULL CHECK (rewound IN (0, 1)),    -- 1: the winding is new since the visit before
    notes TEXT NOT NULL
) STRICT;
CREATE INDEX visits_by_pickup ON visits (pickup_id, at_ms);

CREATE TABLE meters (
    meter_id INTEGER PRIMARY KEY,
    driver TEXT NOT NULL,                                  -- empty: typed in by a person
    port TEXT NOT NULL,
    UNIQUE (driver, port)
) STRICT;

CREATE TABLE words (
    column_name TEXT NOT NULL,                             -- a column of readings that holds codes
    code INTEGER NOT NULL,
    word TEXT NOT NULL,                                    -- as in the readings document
    unit TEXT NOT NULL,                                    -- of a quantity's value
    PRIMARY KEY (column_name, code)
) STRICT, WITHOUT ROWID;
INSERT INTO words VALUES
    ('quantity', 1, 'temperature', 'degC'),
    ('quantity', 2, 'dc_resistance', 'ohm'),
    ('quantity', 3, 'inductance', 'H'),
    ('quantity', 4, 'ac_resistance', 'ohm'),
    ('quantity', 5, 'quality_factor', '1'),
    ('quantity', 6, 'dissipation_factor', '1'),
    ('quantity', 7, 'impedance_magnitude', 'ohm'),
    ('quantity', 8, 'phase_angle', 'rad'),
    ('quantity', 9, 'capacitance', 'F'),
    ('quantity', 10, 'insulation_resistance', 'ohm'),
    ('quantity', 11, 'dc_voltage', 'V'),
    ('quantity', 12, 'polarity', ''),
    ('quantity', 13, 'resonance_frequency', 'Hz'),
    ('between', 0, 'leads', ''),
    ('between', 1, 'start-frame', ''),
    ('between', 2, 'finish-frame', ''),
    ('between', 3, 'start-shield', ''),
    ('between', 4, 'finish-shield', ''),
    ('circuit', 0, 'series', ''),
    ('circuit', 1, 'parallel', ''),
    ('state', 0, 'ok', ''),
    ('state', 1, 'over_range', ''),
    ('state', 2, 'under_range', ''),
    ('state', 3, 'unstable', ''),
    ('polarity', 0, 'none', ''),
    ('polarity', 1, 'as_expected', ''),
    ('polarity', 2, 'reversed', '');

CREATE TABLE readings (
    reading_id INTEGER PRIMARY KEY,
    uid BLOB NOT NULL CHECK (length(uid) = 16),
    visit_id INTEGER NOT NULL REFERENCES visits,
    at_ms INTEGER NOT NULL,
    meter_id INTEGER NOT NULL REFERENCES meters,
    coil TEXT NOT NULL,                                    -- empty for the only coil, or for the whole bench
    quantity INTEGER NOT NULL,                             -- this and the next four: codes, see the table words
    "between" INTEGER NOT NULL,
    circuit INTEGER,
    state INTEGER NOT NULL,
    polarity INTEGER,
    frequency REAL,                                        -- Hz, of the test signal
    value REAL,                                            -- in the quantity's unit; no value where state says why
    standard_uncertainty REAL,                             -- same unit
    range_limit REAL,                                      -- same unit: end of the meter's range
    spread REAL,                                           -- same unit: half-width of the wander
    corrects INTEGER REFERENCES readings,                  -- the reading that this one takes the place of
    remark TEXT NOT NULL,
    raw BLOB NOT NULL                                      -- the meter's bytes
) STRICT;
CREATE UNIQUE INDEX readings_by_visit ON readings (visit_id, uid);
CREATE INDEX readings_by_corrected ON readings (corrects) WHERE corrects IS NOT NULL;

CREATE TABLE verdicts (
    verdict_id INTEGER PRIMARY KEY,
    uid BLOB NOT NULL UNIQUE CHECK (length(uid) = 16),
    visit_id INTEGER NOT NULL REFERENCES visits,
    coil TEXT NOT NULL,
    at_ms INTEGER NOT NULL,
    fault TEXT NOT NULL,                                   -- a file in rules/faults
    probability REAL NOT NULL,
    decided INTEGER NOT NULL CHECK (decided IN (0, 1)),
    healthy INTEGER NOT NULL CHECK (healthy IN (0, 1)),
    document TEXT NOT NULL                                 -- the whole diagnosis, JSON
) STRICT;
CREATE INDEX verdicts_by_visit ON verdicts (visit_id);

-- The readings for a person at an SQL prompt.
CREATE VIEW readings_in_words AS
SELECT r.reading_id, p.name AS pickup, strftime('%Y-%m-%dT%H:%M:%fZ', r.at_ms / 1000.0, 'unixepoch') AS at,
       m.driver AS meter, r.coil, q.word AS quantity, b.word AS "between", c.word AS circuit, r.frequency,
       s.word AS state, r.value, r.standard_uncertainty, r.range_limit, r.spread, q.unit, k.word AS polarity,
       EXISTS (SELECT 1 FROM readings AS later WHERE later.corrects = r.reading_id) AS corrected, r.remark
FROM readings AS r
JOIN visits AS v USING (visit_id)
JOIN pickups AS p USING (pickup_id)
JOIN meters AS m USING (meter_id)
JOIN words AS q ON q.column_name = 'quantity' AND q.code = r.quantity
JOIN words AS b ON b.column_name = 'between' AND b.code = r."between"
JOIN words AS s ON s.column_name = 'state' AND s.code = r.state
LEFT JOIN words AS c ON c.column_name = 'circuit' AND c.code = r.circuit
LEFT JOIN words AS k ON k.column_name = 'polarity' AND k.code = r.polarity;

-- What was kept stays as it was kept. INSERT OR REPLACE would delete without asking the delete triggers, so that
-- it has triggers of its own.
CREATE TRIGGER readings_no_update BEFORE UPDATE ON readings
BEGIN SELECT RAISE(ABORT, 'a reading is never edited; append one that corrects it'); END;
CREATE TRIGGER readings_no_delete BEFORE DELETE ON readings
BEGIN SELECT RAISE(ABORT, 'a reading is never deleted; append one that corrects it'); END;
CREATE TRIGGER readings_no_replace BEFORE INSERT ON readings
WHEN EXISTS (SELECT 1 FROM readings WHERE reading_id = NEW.reading_id
             UNION ALL SELECT 1 FROM readings WHERE visit_id = NEW.visit_id AND uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'this reading is kept already'); END;
CREATE TRIGGER readings_correct_their_own_visit BEFORE INSERT ON readings
WHEN NEW.corrects IS NOT NULL
     AND NOT EXISTS (SELECT 1 FROM readings WHERE reading_id = NEW.corrects AND visit_id = NEW.visit_id)
BEGIN SELECT RAISE(ABORT, 'a reading corrects only one of its own visit'); END;

CREATE TRIGGER verdicts_no_update BEFORE UPDATE ON verdicts
BEGIN SELECT RAISE(ABORT, 'a verdict is never edited; store a later one'); END;
CREATE TRIGGER verdicts_no_delete BEFORE DELETE ON verdicts
BEGIN SELECT RAISE(ABORT, 'a verdict is never deleted; store a later one'); END;
CREATE TRIGGER verdicts_no_replace BEFORE INSERT ON verdicts
WHEN EXISTS (SELECT 1 FROM verdicts WHERE verdict_id = NEW.verdict_id
             UNION ALL SELECT 1 FROM verdicts WHERE uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'this verdict is kept already'); END;

CREATE TRIGGER visits_no_update BEFORE UPDATE ON visits
BEGIN SELECT RAISE(ABORT, 'a visit is never edited'); END;
CREATE TRIGGER visits_no_delete BEFORE DELETE ON visits
BEGIN SELECT RAISE(ABORT, 'a visit is never deleted'); END;
CREATE TRIGGER visits_no_replace BEFORE INSERT ON visits
WHEN EXISTS (SELECT 1 FROM visits WHERE visit_id = NEW.visit_id
             UNION ALL SELECT 1 FROM visits WHERE uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'this visit is kept already'); END;

CREATE TRIGGER pickup_changes_no_update BEFORE UPDATE ON pickup_changes
BEGIN SELECT RAISE(ABORT, 'a former value is never edited'); END;
CREATE TRIGGER pickup_changes_no_delete BEFORE DELETE ON pickup_changes
BEGIN SELECT RAISE(ABORT, 'a former value is never deleted'); END;

CREATE TRIGGER pickups_no_delete BEFORE DELETE ON pickups
BEGIN SELECT RAISE(ABORT, 'a pickup is never deleted'); END;
CREATE TRIGGER pickups_no_replace BEFORE INSERT ON pickups
WHEN EXISTS (SELECT 1 FROM pickups WHERE pickup_id = NEW.pickup_id
             UNION ALL SELECT 1 FROM pickups WHERE uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'this pickup is kept already'); END;

CREATE TRIGGER meters_no_update BEFORE UPDATE ON meters
BEGIN SELECT RAISE(ABORT, 'a meter that readings name is never edited'); END;
CREATE TRIGGER meters_no_delete BEFORE DELETE ON meters
BEGIN SELECT RAISE(ABORT, 'a meter that readings name is never deleted'); END;
CREATE TRIGGER meters_no_replace BEFORE INSERT ON meters
WHEN EXISTS (SELECT 1 FROM meters WHERE meter_id = NEW.meter_id
             UNION ALL SELECT 1 FROM meters WHERE driver = NEW.driver AND port = NEW.port)
BEGIN SELECT RAISE(ABORT, 'this meter is kept already'); END;

CREATE TRIGGER words_no_update BEFORE UPDATE ON words
BEGIN SELECT RAISE(ABORT, 'what a code means never changes'); END;
CREATE TRIGGER words_no_delete BEFORE DELETE ON words
BEGIN SELECT RAISE(ABORT, 'what a code means never changes'); END;
CREATE TRIGGER words_no_replace BEFORE INSERT ON words
WHEN EXISTS (SELECT 1 FROM words WHERE column_name = NEW.column_name AND code = NEW.code)
BEGIN SELECT RAISE(ABORT, 'what a code means never changes'); END;


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

ALTER TABLE readings ADD COLUMN handling INTEGER;          -- a code, see the table words; none for a coil at rest

INSERT INTO words VALUES
    ('quantity', 14, 'magnet_pole', ''),
    ('between', 5, 'leads-frame', ''),
    ('handling', 0, 'warmed', ''),
    ('handling', 1, 'pressed', ''),
    ('handling', 2, 'lifted', '');

-- As before, with the handling at the end.
DROP VIEW readings_in_words;
CREATE VIEW readings_in_words AS
SELECT r.reading_id, p.name AS pickup, strftime('%Y-%m-%dT%H:%M:%fZ', r.at_ms / 1000.0, 'unixepoch') AS at,
       m.driver AS meter, r.coil, q.word AS quantity, b.word AS "between", c.word AS circuit, r.frequency,
       s.word AS state, r.value, r.standard_uncertainty, r.range_limit, r.spread, q.unit, k.word AS polarity,
       EXISTS (SELECT 1 FROM readings AS later WHERE later.corrects = r.reading_id) AS corrected, r.remark,
       h.word AS handling
FROM readings AS r
JOIN visits AS v USING (visit_id)
JOIN pickups AS p USING (pickup_id)
JOIN meters AS m USING (meter_id)
JOIN words AS q ON q.column_name = 'quantity' AND q.code = r.quantity
JOIN words AS b ON b.column_name = 'between' AND b.code = r."between"
JOIN words AS s ON s.column_name = 'state' AND s.code = r.state
LEFT JOIN words AS c ON c.column_name = 'circuit' AND c.code = r.circuit
LEFT JOIN words AS k ON k.column_name = 'polarity' AND k.code = r.polarity
LEFT JOIN words AS h ON h.column_name = 'handling' AND h.code = r.handling;

INSERT INTO pickups VALUES
    (1, x'00000000000040008000000000000001', 1772442000001, 'Bridge, red guitar', 'bridge-red-guitar', 'C. Nonymous',
     'red guitar, 6 strings', 'dual-coil-series', 'weak since the house move',
     'bridge, red guitar' || char(10) || 'c. nonymous'),
    (2, x'00000000000040008000000000000002', 1772442000000, 'Neck', 'neck', '', '', '', '', 'neck');
INSERT INTO pickup_coils VALUES (1, 0, 'slug', 'six-slug-42'), (1, 1, 'screw', 'six-screw-42');
INSERT INTO pickup_values VALUES
    (1, x'00000000000040008000000000000001', 'owner', 'A. Nonymous', 1772442000001),
    (1, x'00000000000040008000000000000046', 'owner', 'C. Nonymous', 1800021600000);
INSERT INTO visits VALUES
    (1, x'0000000000004000800000000000000a', 1, 1772445600000, 'as received', 0, ''),
    (2, x'0000000000004000800000000000000b', 1, 1800021600000, 'after rewinding', 1, 'screw coil only');
INSERT INTO meters VALUES (1, '', ''), (2, 'bench-lcr', '/dev/ttyUSB0');
INSERT INTO readings VALUES
    -- typed in: 21.4 degC ± 0.5
    (1, x'00000000000040008000000000000014', 1, 1772445600000, 1, '', 1, 0, NULL, 0, NULL, NULL, 21.4, 0.5, NULL, NULL, NULL,
     '', x'', NULL),
    -- 2.331 H, series, 1 kHz, of the slug coil, with the meter's bytes "+2.331E+0" CR LF
    (2, x'00000000000040008000000000000015', 1, 1772445900000, 2, 'slug', 3, 0, 0, 0, NULL, 1000.0, 2.331, 0.008, NULL, NULL,
     NULL, '', x'2b322e333331452b300d0a', NULL),
    -- its correction: it was the screw coil
    (3, x'00000000000040008000000000000016', 1, 1772445900001, 1, 'screw', 3, 0, 0, 0, NULL, 1000.0, 2.331, 0.008, NULL, NULL,
     2, 'it was the other coil', x'', NULL),
    -- start to frame, over the range's end of 20 megohm
    (4, x'00000000000040008000000000000017', 1, 1772445900002, 1, 'slug', 10, 1, NULL, 1, NULL, NULL, NULL, NULL, 2.0e7, NULL,
     NULL, '', x'', NULL),
    -- the kick test: reversed
    (5, x'00000000000040008000000000000018', 1, 1772445900003, 1, 'screw', 12, 0, NULL, 0, 2, NULL, NULL, NULL, NULL, NULL,
     NULL, '', x'', NULL),
    -- 6.94 kilohm while the joints were pressed, after the rewind
    (6, x'00000000000040008000000000000019', 2, 1800021900000, 1, 'screw', 2, 0, NULL, 0, NULL, NULL, 6940.0, 9.0, NULL, NULL,
     NULL, '', x'', 1),
    -- the magnet's pole by compass: as expected
    (7, x'0000000000004000800000000000001a', 2, 1800021900001, 1, 'screw', 14, 0, NULL, 0, 1, NULL, NULL, NULL, NULL, NULL,
     NULL, '', x'', NULL);
INSERT INTO verdicts VALUES
    (1, x'0000000000004000800000000000001e', 1, 'screw', 1772445900004, 'shorted-turns', 0.973, 1, 0, '{"notes": []}');
-- "label" and its SHA-256 by sha256sum
INSERT INTO contents VALUES
    (x'1aca80e8b55c802f7b43740da2990e1b5735bbb323d93eb5ebda8395b04025e2', x'6c6162656c');
INSERT INTO attachments VALUES
    (1, x'00000000000040008000000000000032', 1, 1772445600000, 'label.txt', 'text/plain', 'the label', x'1aca80e8b55c802f7b43740da2990e1b5735bbb323d93eb5ebda8395b04025e2');

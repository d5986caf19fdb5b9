#include "history/postgres_schema.h"

namespace coilward {

// Version 2, the first that a server holds; what each column is for stands in schema_0001.cpp and
// schema_0002.cpp. Never edited once released: a change is a new text that leads from one version to the next
// (docs/history.md). Texts are compared byte by byte (COLLATE "C"), as SQLite compares them.
const char* const postgres_schema = R"sql(
CREATE TABLE coilward_schema (version INTEGER PRIMARY KEY);
INSERT INTO coilward_schema VALUES (2);

CREATE TABLE pickups (
    pickup_id BIGINT PRIMARY KEY,
    uid BYTEA NOT NULL UNIQUE CHECK (length(uid) = 16),
    added_ms BIGINT NOT NULL,
    name TEXT NOT NULL CHECK (name <> ''),
    slug TEXT COLLATE "C" NOT NULL,
    owner TEXT NOT NULL,
    instrument TEXT NOT NULL,
    pickup_type TEXT NOT NULL,
    notes TEXT NOT NULL,
    searchable TEXT COLLATE "C" NOT NULL
);
CREATE INDEX pickups_by_slug ON pickups (slug);

CREATE TABLE pickup_coils (
    pickup_id BIGINT NOT NULL REFERENCES pickups,
    position BIGINT NOT NULL,
    name TEXT COLLATE "C" NOT NULL,
    coil_model TEXT NOT NULL,
    PRIMARY KEY (pickup_id, position),
    UNIQUE (pickup_id, name)
);

CREATE TABLE pickup_values (
    pickup_id BIGINT NOT NULL REFERENCES pickups,
    edit_uid BYTEA NOT NULL CHECK (length(edit_uid) = 16),
    field TEXT COLLATE "C" NOT NULL,
    value TEXT COLLATE "C" NOT NULL,
    at_ms BIGINT NOT NULL
);
CREATE INDEX pickup_values_by_pickup ON pickup_values (pickup_id);

CREATE TABLE visits (
    visit_id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    uid BYTEA NOT NULL UNIQUE CHECK (length(uid) = 16),
    pickup_id BIGINT NOT NULL REFERENCES pickups,
    at_ms BIGINT NOT NULL,
    stage TEXT NOT NULL,
    rewound BIGINT NOT NULL CHECK (rewound IN (0, 1)),
    notes TEXT NOT NULL
);
CREATE INDEX visits_by_pickup ON visits (pickup_id, at_ms);

CREATE TABLE meters (
    meter_id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    driver TEXT COLLATE "C" NOT NULL,
    port TEXT COLLATE "C" NOT NULL,
    UNIQUE (driver, port)
);

CREATE TABLE words (
    column_name TEXT COLLATE "C" NOT NULL,
    code BIGINT NOT NULL,
    word TEXT NOT NULL,
    unit TEXT NOT NULL,
    PRIMARY KEY (column_name, code)
);
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
    reading_id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    uid BYTEA NOT NULL CHECK (length(uid) = 16),
    visit_id BIGINT NOT NULL REFERENCES visits,
    at_ms BIGINT NOT NULL,
    meter_id BIGINT NOT NULL REFERENCES meters,
    coil TEXT NOT NULL,
    quantity BIGINT NOT NULL,
    "between" BIGINT NOT NULL,
    circuit BIGINT,
    state BIGINT NOT NULL,
    polarity BIGINT,
    frequency DOUBLE PRECISION,
    value DOUBLE PRECISION,
    standard_uncertainty DOUBLE PRECISION,
    range_limit DOUBLE PRECISION,
    spread DOUBLE PRECISION,
    corrects BIGINT REFERENCES readings,
    remark TEXT NOT NULL,
    raw BYTEA NOT NULL
);
CREATE UNIQUE INDEX readings_by_visit ON readings (visit_id, uid);
CREATE INDEX readings_by_corrected ON readings (corrects) WHERE corrects IS NOT NULL;

CREATE TABLE verdicts (
    verdict_id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    uid BYTEA NOT NULL UNIQUE CHECK (length(uid) = 16),
    visit_id BIGINT NOT NULL REFERENCES visits,
    coil TEXT NOT NULL,
    at_ms BIGINT NOT NULL,
    fault TEXT NOT NULL,
    probability DOUBLE PRECISION NOT NULL,
    decided BIGINT NOT NULL CHECK (decided IN (0, 1)),
    healthy BIGINT NOT NULL CHECK (healthy IN (0, 1)),
    document TEXT NOT NULL
);
CREATE INDEX verdicts_by_visit ON verdicts (visit_id);

CREATE TABLE contents (
    sha256 BYTEA PRIMARY KEY CHECK (length(sha256) = 32),
    bytes BYTEA NOT NULL
);

CREATE TABLE attachments (
    attachment_id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    uid BYTEA NOT NULL UNIQUE CHECK (length(uid) = 16),
    pickup_id BIGINT NOT NULL REFERENCES pickups,
    at_ms BIGINT NOT NULL,
    name TEXT NOT NULL,
    media_type TEXT NOT NULL,
    note TEXT NOT NULL,
    sha256 BYTEA NOT NULL REFERENCES contents
);
CREATE INDEX attachments_by_pickup ON attachments (pickup_id);

-- The readings for a person at an SQL prompt.
CREATE VIEW readings_in_words AS
SELECT r.reading_id, p.name AS pickup,
       to_char(to_timestamp(r.at_ms / 1000.0) AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at,
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

-- What was kept stays as it was kept.
CREATE FUNCTION coilward_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION '%', TG_ARGV[0];
END $$;
CREATE TRIGGER readings_no_update BEFORE UPDATE ON readings EXECUTE FUNCTION coilward_refuse('a reading is never edited; append one that corrects it');
CREATE TRIGGER readings_no_delete BEFORE DELETE ON readings EXECUTE FUNCTION coilward_refuse('a reading is never deleted; append one that corrects it');
CREATE TRIGGER readings_no_truncate BEFORE TRUNCATE ON readings EXECUTE FUNCTION coilward_refuse('a reading is never deleted; append one that corrects it');
CREATE TRIGGER verdicts_no_update BEFORE UPDATE ON verdicts EXECUTE FUNCTION coilward_refuse('a verdict is never edited; store a later one');
CREATE TRIGGER verdicts_no_delete BEFORE DELETE ON verdicts EXECUTE FUNCTION coilward_refuse('a verdict is never deleted; store a later one');
CREATE TRIGGER verdicts_no_truncate BEFORE TRUNCATE ON verdicts EXECUTE FUNCTION coilward_refuse('a verdict is never deleted; store a later one');
CREATE TRIGGER visits_no_update BEFORE UPDATE ON visits EXECUTE FUNCTION coilward_refuse('a visit is never edited');
CREATE TRIGGER visits_no_delete BEFORE DELETE ON visits EXECUTE FUNCTION coilward_refuse('a visit is never deleted');
CREATE TRIGGER visits_no_truncate BEFORE TRUNCATE ON visits EXECUTE FUNCTION coilward_refuse('a visit is never deleted');
CREATE TRIGGER pickup_values_no_update BEFORE UPDATE ON pickup_values EXECUTE FUNCTION coilward_refuse('a former value is never edited');
CREATE TRIGGER pickup_values_no_delete BEFORE DELETE ON pickup_values EXECUTE FUNCTION coilward_refuse('a former value is never deleted');
CREATE TRIGGER pickup_values_no_truncate BEFORE TRUNCATE ON pickup_values EXECUTE FUNCTION coilward_refuse('a former value is never deleted');
CREATE TRIGGER contents_no_update BEFORE UPDATE ON contents EXECUTE FUNCTION coilward_refuse('an attached file is never edited; attach another');
CREATE TRIGGER contents_no_delete BEFORE DELETE ON contents EXECUTE FUNCTION coilward_refuse('an attached file is never deleted');
CREATE TRIGGER contents_no_truncate BEFORE TRUNCATE ON contents EXECUTE FUNCTION coilward_refuse('an attached file is never deleted');
CREATE TRIGGER attachments_no_update BEFORE UPDATE ON attachments EXECUTE FUNCTION coilward_refuse('an attachment is never edited; attach another');
CREATE TRIGGER attachments_no_delete BEFORE DELETE ON attachments EXECUTE FUNCTION coilward_refuse('an attachment is never deleted');
CREATE TRIGGER attachments_no_truncate BEFORE TRUNCATE ON attachments EXECUTE FUNCTION coilward_refuse('an attachment is never deleted');
CREATE TRIGGER pickups_no_delete BEFORE DELETE ON pickups EXECUTE FUNCTION coilward_refuse('a pickup is never deleted');
CREATE TRIGGER pickups_no_truncate BEFORE TRUNCATE ON pickups EXECUTE FUNCTION coilward_refuse('a pickup is never deleted');
CREATE TRIGGER meters_no_update BEFORE UPDATE ON meters EXECUTE FUNCTION coilward_refuse('a meter that readings name is never edited');
CREATE TRIGGER meters_no_delete BEFORE DELETE ON meters EXECUTE FUNCTION coilward_refuse('a meter that readings name is never deleted');
CREATE TRIGGER meters_no_truncate BEFORE TRUNCATE ON meters EXECUTE FUNCTION coilward_refuse('a meter that readings name is never deleted');
CREATE TRIGGER words_no_update BEFORE UPDATE ON words EXECUTE FUNCTION coilward_refuse('what a code means never changes');
CREATE TRIGGER words_no_delete BEFORE DELETE ON words EXECUTE FUNCTION coilward_refuse('what a code means never changes');
CREATE TRIGGER words_no_truncate BEFORE TRUNCATE ON words EXECUTE FUNCTION coilward_refuse('what a code means never changes');

CREATE FUNCTION coilward_readings_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF EXISTS (SELECT 1 FROM readings WHERE visit_id = NEW.visit_id AND uid = NEW.uid) THEN RAISE EXCEPTION 'this reading is kept already'; END IF;
    RETURN NEW;
END $$;
CREATE TRIGGER readings_once BEFORE INSERT ON readings FOR EACH ROW EXECUTE FUNCTION coilward_readings_once();

CREATE FUNCTION coilward_verdicts_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF EXISTS (SELECT 1 FROM verdicts WHERE uid = NEW.uid) THEN RAISE EXCEPTION 'this verdict is kept already'; END IF;
    RETURN NEW;
END $$;
CREATE TRIGGER verdicts_once BEFORE INSERT ON verdicts FOR EACH ROW EXECUTE FUNCTION coilward_verdicts_once();

CREATE FUNCTION coilward_visits_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF EXISTS (SELECT 1 FROM visits WHERE uid = NEW.uid) THEN RAISE EXCEPTION 'this visit is kept already'; END IF;
    RETURN NEW;
END $$;
CREATE TRIGGER visits_once BEFORE INSERT ON visits FOR EACH ROW EXECUTE FUNCTION coilward_visits_once();

CREATE FUNCTION coilward_pickups_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF EXISTS (SELECT 1 FROM pickups WHERE uid = NEW.uid) THEN RAISE EXCEPTION 'this pickup is kept already'; END IF;
    RETURN NEW;
END $$;
CREATE TRIGGER pickups_once BEFORE INSERT ON pickups FOR EACH ROW EXECUTE FUNCTION coilward_pickups_once();

CREATE FUNCTION coilward_attachments_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF EXISTS (SELECT 1 FROM attachments WHERE uid = NEW.uid) THEN RAISE EXCEPTION 'this attachment is kept already'; END IF;
    RETURN NEW;
END $$;
CREATE TRIGGER attachments_once BEFORE INSERT ON attachments FOR EACH ROW EXECUTE FUNCTION coilward_attachments_once();

CREATE FUNCTION coilward_corrects_own_visit() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NOT EXISTS (SELECT 1 FROM readings WHERE reading_id = NEW.corrects AND visit_id = NEW.visit_id) THEN
        RAISE EXCEPTION 'a reading corrects only one of its own visit';
    END IF;
    RETURN NEW;
END $$;
CREATE TRIGGER readings_correct_their_own_visit BEFORE INSERT ON readings FOR EACH ROW
WHEN (NEW.corrects IS NOT NULL) EXECUTE FUNCTION coilward_corrects_own_visit();
)sql";

} // namespace coilward

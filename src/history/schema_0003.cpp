#include "history/schema.h"

namespace coilward {

// Version 3. What was done to the coil while a reading was taken; a magnet's pole by compass; both leads
// joined. Never edited once released (docs/history.md).
const char* const schema_0003 = R"sql(
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
)sql";

} // namespace coilward

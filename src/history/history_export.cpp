#include "history/history_export.h"

#include "history/csv.h"
#include "history/hexadecimal.h"
#include "history/history_json.h"

#include <initializer_list>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view header =
    "pickup_id,pickup,name,owner,visit_id,visit_at,stage,rewound,reading_id,at,meter,port,coil,quantity,"
    "between,circuit,"
    "frequency,state,polarity,value,unit,standard_uncertainty,limit,spread,corrects,remark,raw,handling\r\n";

/// The fewest digits that read back as the same number; nothing for none.
std::string number(const std::optional<double>& value) {
    return value ? fmt::format("{}", *value) : "";
}

template <typename Kind>
std::string word(const std::optional<Kind>& kind) {
    return kind ? std::string(name(*kind)) : "";
}

std::string record(std::initializer_list<std::string> fields) {
    std::string line;
    for (const std::string& field : fields)
        line += (line.empty() ? "" : ",") + csv_field(field);
    return line + "\r\n";
}

std::string record_of(const Pickup& pickup, const Visit& visit, const StoredReading& stored) {
    const Reading& reading = stored.reading;
    return record({text_of(pickup.id),
                   std::to_string(pickup.number),
                   pickup.name,
                   pickup.owner,
                   text_of(visit.id),
                   text_of(visit.at),
                   visit.stage,
                   visit.rewound ? "1" : "0",
                   text_of(stored.id),
                   text_of(stored.at),
                   stored.meter,
                   stored.port,
                   reading.coil,
                   std::string(name(reading.quantity)),
                   std::string(name(reading.between)),
                   word(reading.circuit),
                   number(reading.frequency_hz),
                   std::string(name(reading.state)),
                   word(reading.polarity),
                   number(reading.value),
                   std::string(unit(reading.quantity)),
                   number(reading.standard_uncertainty),
                   number(reading.limit),
                   number(reading.spread),
                   stored.corrects ? text_of(*stored.corrects) : "",
                   stored.remark,
                   in_hexadecimal(stored.raw),
                   word(reading.handling)});
}

} // namespace

std::string everything_to_json(const History& history) {
    std::string text = R"({"histories":[)";
    for (const Pickup& pickup : pickups_by_age(history)) {
        if (text.back() == '}') text += ',';
        text += whole_pickup_to_json(whole_pickup(history, pickup));
    }
    return text + "]}";
}

std::string readings_to_csv(const History& history) {
    std::string text(header);
    for (const Pickup& pickup : pickups_by_age(history))
        for (const Visit& visit : history.visits_of(pickup.id))
            for (const StoredReading& stored : history.readings_of(visit.id))
                text += record_of(pickup, visit, stored);
    return text;
}

} // namespace coilward

#include "guide/visit_record.h"

#include "history/examination_of.h"
#include "report/diagnosis_json.h"

#include <algorithm>

namespace coilward {
namespace {

/// Bytes and time of everything that was taken for one quantity.
StoredReading stored(const Reading& reading, const Measured& measured, const BenchMeter& meter) {
    StoredReading kept{.meter = meter.driver->id, .port = meter.port, .reading = reading};
    for (const StampedReading& each : measured.raw) {
        if (each.reading.quantity != reading.quantity) continue;
        kept.at = each.at;
        kept.raw += each.raw;
        if (meter.driver->line) kept.raw += '\n';
    }
    return kept;
}

/// The readings of one coil, as of a pickup that has no other. A bench's temperature belongs to every coil.
std::vector<Reading> of_coil(const std::vector<Reading>& readings, const std::string& coil) {
    std::vector<Reading> its;
    for (Reading reading : readings) {
        const bool of_bench = reading.quantity == Quantity::temperature && reading.coil.empty();
        if (reading.coil != coil && !of_bench) continue;
        reading.coil.clear();
        its.push_back(std::move(reading));
    }
    return its;
}

bool changes_nothing(const Rules& rules, const std::string& fault) {
    const Fault* found = rules.fault(fault);
    return found && found->primitive == Primitive::none;
}

} // namespace

std::string coil_model_of(const Pickup& pickup, const std::string& coil) {
    const auto found = std::ranges::find(pickup.coils, coil, &PickupCoil::name);
    return found == pickup.coils.end() ? "" : found->coil_model;
}

void VisitRecord::keep(const Measured& measured, const BenchMeter& meter, const std::string& remark) {
    std::vector<StoredReading> kept;
    for (const Reading& reading : measured.readings) {
        kept.push_back(stored(reading, measured, meter));
        kept.back().remark = remark;
    }
    append(std::move(kept));
}

void VisitRecord::keep(const Reading& reading, Moment at) {
    append({{.at = at, .reading = reading}});
}

void VisitRecord::append(std::vector<StoredReading> kept) {
    for (StoredReading& each : kept) {
        each.id = random_id();
        each.visit = bench_.visit.id;
    }
    if (readings_ == 0) history_.begin_visit(bench_.visit);
    history_.append_readings(kept);
    readings_ += kept.size();
}

void VisitRecord::keep(const Diagnosis& diagnosis, const Rules& rules, Moment at) {
    history_.store_verdict({.id = random_id(),
                            .visit = bench_.visit.id,
                            .coil = bench_.coil,
                            .at = at,
                            .fault = diagnosis.verdict.fault,
                            .probability = diagnosis.verdict.probability,
                            .decided = diagnosis.decided,
                            .healthy = changes_nothing(rules, diagnosis.verdict.fault),
                            .document = diagnosis_to_json(diagnosis)});
}

Examination part_of_coil(Examination examination, const CoilOnBench& bench) {
    examination.pickup_type.clear();
    examination.coils.clear();
    examination.coil_model = coil_model_of(bench.pickup, bench.coil);
    examination.readings = of_coil(examination.readings, bench.coil);
    for (EarlierExamination& earlier : examination.earlier)
        earlier.readings = of_coil(earlier.readings, bench.coil);
    std::erase_if(examination.alike, [&](const AlikeCoil& alike) { return alike.coil != bench.coil; });
    return examination;
}

Examination VisitRecord::examination() const {
    Examination examination;
    if (readings_ > 0) examination = examination_of(history_, bench_.pickup, bench_.visit);
    return part_of_coil(std::move(examination), bench_);
}

} // namespace coilward

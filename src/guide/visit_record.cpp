#include "guide/visit_record.h"

#include "history/coil_readings.h"
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

/// What diagnosis judges the coil by.
Examination part_of_coil(Examination examination, const CoilOnBench& bench) {
    examination.pickup_type.clear();
    examination.coils.clear();
    examination.coil_model = coil_model_of(bench.pickup, bench.coil);
    examination.readings = of_coil(examination.readings, bench.coil);
    for (EarlierExamination& earlier : examination.earlier)
        earlier.readings = of_coil(earlier.readings, bench.coil);
    return examination;
}

/// What the history holds beside the coil.
std::vector<Kin> kin_of_coil(const History& history, const CoilOnBench& bench) {
    if (bench.alone) return {};
    auto all = kin_by_instrument(history, bench.pickup, bench.visit);
    std::erase_if(all, [&](const Kin& kin) { return kin.coil.coil != bench.coil; });
    return all;
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

VisitRecord::VisitRecord(History& history, CoilOnBench bench)
    : history_(history), bench_(std::move(bench)), kin_(kin_of_coil(history_, bench_)) {
    const auto visits = history_.visits_of(bench_.pickup.id);
    begun_ = std::ranges::find(visits, bench_.visit.id, &Visit::id) != visits.end();
    if (begun_) readings_ = kept().size();
}

std::vector<StoredReading> VisitRecord::kept() const {
    if (!begun_) return {};
    auto readings = current_readings(history_.readings_of(bench_.visit.id));
    std::erase_if(readings,
                  [&](const StoredReading& stored) { return !is_of_coil(stored.reading, bench_.coil); });
    return readings;
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
    if (!begun_) history_.begin_visit(bench_.visit);
    begun_ = true;
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

Examination VisitRecord::examination() const {
    Examination examination;
    if (begun_) examination = examination_of(history_, bench_.pickup, bench_.visit);
    examination = part_of_coil(std::move(examination), bench_);
    hold_beside(examination, kin_);
    return examination;
}

} // namespace coilward

#include "diagnosis/diagnosis.h"

#include <algorithm>
#include <vector>

#include <gtest/gtest.h>

// Published readings of real pickups, judged with nothing but the shipped coil model of their construction
// and an ordinary ohmmeter's half per cent. The ids are those of the collected measurements: S01 a table of
// early production averages, S14 a maker's answers to readers, S16 a rewinder's article, S17 and S19
// repair-supply trade columns (2018, 2009), S18 an electronics forum, S21 a shop's road test, S32 and S34
// notes and a forum on covered rod singles, S38 and S39 bass forums, S42 a repairer's notes, S13 a repair
// guide, S55 a builder's page, S56 a magazine's listing.

namespace coilward {
namespace {

constexpr double ohmmeter_relative = 0.005;

struct Published {
    const char* row;
    const char* coil_model;
    double dc_resistance_ohm;
    std::vector<std::string> faults; // as published; empty where the unit was sound
};

const std::vector<Published> sound{
    {"s01-03", "slug-coil-42", 4000, {}},   {"s01-05", "wide-bar-42", 8000, {}},
    {"s01-09", "bar-in-coil-42", 7300, {}}, {"s01-10", "six-rod-42", 5760, {}},
    {"s01-11", "six-rod-42", 5890, {}},     {"s01-12", "six-rod-42", 5980, {}},
    {"s01-14", "six-rod-42", 6200, {}},     {"s01-16", "six-rod-42", 6330, {}},
    {"s01-19", "six-rod-42", 6370, {}},     {"s01-22", "six-rod-42", 5760, {}},
    {"s01-24", "lead-rod-43", 8000, {}},    {"s14-01", "lead-rod-42", 6000, {}},
    {"s16-01", "bass-rod-42", 6800, {}},    {"s17-01", "six-rod-42", 6300, {}},
    {"s17-02", "six-rod-42", 5700, {}},     {"s18-01", "six-rod-42", 5900, {}},
    {"s18-03", "six-rod-42", 6100, {}},     {"s21-01", "wide-bar-42", 8900, {}},
    {"s32-01", "covered-rod-44", 7000, {}}, {"s34-01", "covered-rod-44", 7480, {}},
    {"s39-01", "split-bass-42", 5000, {}},  {"s42-02", "hot-coil-44", 8420, {}},
    {"s55-01", "six-rod-42", 6200, {}},     {"s56-01", "wide-bar-42", 7800, {}},
};

const std::vector<Published> faulty{
    {"s17-03: 260 kilohm where 6 belong", "six-rod-42", 260e3, {"partial-break"}},
    {"s39-02: 223 kilohm where 5 belong", "split-bass-42", 223e3, {"partial-break"}},
    {"S38: 35 megohm where 6 kilohm belong", "six-rod-42", 35e6, {"open", "partial-break"}},
    {"S13: 3 kilohm where 7.5 belong, attributed to shorted turns", "wide-rod-42", 3000, {"shorted-turns"}},
};

Rules shipped_rules() {
    return load_rules(COILWARD_SOURCE_DIR "/rules");
}

Diagnosis judged(const Rules& rules, const std::string& coil_model, Reading reading) {
    Examination examination;
    examination.coil_model = coil_model;
    examination.readings = {std::move(reading)};
    return diagnose(rules, examination);
}

Reading resistance(double ohm) {
    Reading reading;
    reading.quantity = Quantity::dc_resistance;
    reading.value = ohm;
    reading.standard_uncertainty = ohmmeter_relative * ohm;
    return reading;
}

void expect_found(const Diagnosis& diagnosis, const std::vector<std::string>& faults, const char* row) {
    const auto is_published = [&](const std::string& fault) { return std::ranges::count(faults, fault) > 0; };
    if (diagnosis.decided)
        EXPECT_TRUE(is_published(diagnosis.verdict.fault)) << row << ": decided " << diagnosis.verdict.fault;
    else
        EXPECT_TRUE(is_published(diagnosis.faults[0].fault) || is_published(diagnosis.faults[1].fault))
            << row << ": " << diagnosis.faults[0].fault << ", " << diagnosis.faults[1].fault;
}

TEST(PublishedReadings, AtMostOneSoundPickupInTwentyIsCalledFaulty) {
    const Rules rules = shipped_rules();
    std::size_t called_faulty = 0;
    for (const Published& row : sound) {
        const Diagnosis diagnosis = judged(rules, row.coil_model, resistance(row.dc_resistance_ohm));
        if (diagnosis.decided && diagnosis.verdict.fault != "healthy") {
            ++called_faulty;
            ADD_FAILURE() << row.row << ": " << diagnosis.verdict.fault;
        }
    }
    EXPECT_LE(20 * called_faulty, sound.size());
}

TEST(PublishedReadings, EachPublishedFaultIsFoundOrInSight) {
    const Rules rules = shipped_rules();
    for (const Published& row : faulty)
        expect_found(judged(rules, row.coil_model, resistance(row.dc_resistance_ohm)), row.faults, row.row);
}

TEST(PublishedReadings, AnOpenCoilOverTheRangeOfTheMeterIsFound) {
    // s19-01, S34, S41: no reading on a 20 kilohm range.
    Reading reading;
    reading.quantity = Quantity::dc_resistance;
    reading.state = State::over_range;
    reading.limit = 20e3;
    expect_found(judged(shipped_rules(), "lead-rod-42", reading), {"open"}, "s19-01");
}

} // namespace
} // namespace coilward

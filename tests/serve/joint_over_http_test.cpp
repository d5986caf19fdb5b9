// A pickup of two coils over HTTP: what is read of the whole, and how its coils are joined.

#include "served_bench.h"

#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::json;
using testing::ServedBench;

constexpr Moment morning{std::chrono::milliseconds(1774862400000)}; // 2026-03-30T09:20:00Z

/// Resistance and inductance of one coil; of docs/examples, invented.
std::vector<Reading> read_of(const std::string& coil, double resistance_ohm, double inductance_h) {
    return {{.quantity = Quantity::dc_resistance, .value = resistance_ohm, .coil = coil},
            {.quantity = Quantity::inductance,
             .circuit = Circuit::series,
             .frequency_hz = 1000.0,
             .value = inductance_h,
             .coil = coil}};
}

struct TwoCoils {
    ServedBench bench;
    httplib::Client client = bench.client();

    TwoCoils() {
        EXPECT_EQ(post("/api/pickups",
                       {{"name", "Breakwater, bridge"},
                        {"pickup_type", "dual-coil-series"},
                        {"coils", {{"slug", "slug-coil-42"}, {"screw", "screw-coil-42"}}}},
                       201)
                      .at("number"),
                  1);
    }

    void examine() {
        History history = bench.history();
        const Visit visit{.id = random_id(), .pickup = history.pickup(1)->id, .at = morning};
        history.begin_visit(visit);
        for (const auto& readings : {read_of("slug", 3995.8, 1.9863), read_of("screw", 4051.3, 1.7428)})
            for (const Reading& reading : readings)
                history.append_reading(
                    {.id = random_id(), .visit = visit.id, .at = morning, .reading = reading});
    }

    std::vector<StoredReading> latest_readings() const {
        const History history = bench.history();
        return history.readings_of(history.visits_of(history.pickup(1)->id).back().id);
    }

    Json get(const std::string& path, int status = 200) { return body_of(client.Get(path), status); }

    Json post(const std::string& path, const Json& body, int status) {
        return body_of(client.Post(path, body.dump(), "application/json"), status);
    }

private:
    static Json body_of(const httplib::Result& answer, int status) {
        if (!answer) throw std::runtime_error("no answer: " + httplib::to_string(answer.error()));
        EXPECT_EQ(answer->status, status) << answer->body;
        return Json::parse(answer->body);
    }
};

double probability_of(const Json& joint, const char* fault) {
    for (const Json& each : joint.at("whole").at("faults"))
        if (each.at("fault") == fault) return each.at("probability");
    return -1.0;
}

TEST(JointOverHttp, TellsOneReversedCoilFromTheWhole) {
    TwoCoils pickup;
    pickup.examine();
    const Json before = pickup.get("/api/pickups/1/joint");
    EXPECT_EQ(before.at("coils").size(), 2U);
    // Together 3.36 H, less than 1.99 H and 1.74 H: they work against each other.
    const Json after =
        pickup.post("/api/pickups/1/whole", {{"dc_resistance", "8.077k"}, {"inductance", "3.3617"}}, 201);
    EXPECT_GT(probability_of(after, "coil-reversed"), 0.9) << after.at("whole").at("faults").dump(1);
    EXPECT_GT(probability_of(after, "coil-reversed"), probability_of(before, "coil-reversed"));
    EXPECT_THAT(after.at("whole").at("words").at("headline").get<std::string>(),
                HasSubstr("One coil is reversed"));
    EXPECT_FALSE(after.at("whole").at("words").at("faults").empty());
    EXPECT_EQ(pickup.get("/api/pickups/1/joint").at("verdict"), after.at("verdict"))
        << "it is in the history";
}

TEST(JointOverHttp, KeepsTheUncertaintyThatIsTold) {
    TwoCoils pickup;
    pickup.examine();
    pickup.post("/api/pickups/1/whole", {{"dc_resistance", "8.077k±12"}, {"inductance", "3.3617"}}, 201);
    std::size_t of_the_whole = 0;
    for (const StoredReading& stored : pickup.latest_readings()) {
        if (stored.reading.coil != "whole") continue;
        ++of_the_whole;
        const bool resistance = stored.reading.quantity == Quantity::dc_resistance;
        EXPECT_EQ(stored.reading.standard_uncertainty, resistance ? std::optional(12.0) : std::nullopt);
        EXPECT_DOUBLE_EQ(stored.reading.value.value(), resistance ? 8077.0 : 3.3617);
    }
    EXPECT_EQ(of_the_whole, 2U);
    EXPECT_THAT(pickup.get("/api/pickups/1/joint").at("whole").at("notes").dump(),
                HasSubstr("inductance of the whole pickup at 1 kHz: no uncertainty given"));
}

TEST(JointOverHttp, TellsAnOpenJointBetweenSoundCoils) {
    TwoCoils pickup;
    pickup.examine();
    const Json after = pickup.post("/api/pickups/1/whole", {{"dc_resistance", "over-range"}}, 201);
    // Not more than that: where a meter's range ends was not told, and a probe may have slipped.
    EXPECT_EQ(after.at("whole").at("verdict").at("fault"), "joint-open") << after.at("whole").dump(1);
    EXPECT_EQ(after.at("verdict").at("coil"), "whole");
}

/// What one coil's notes hold it beside.
std::size_t held_beside(const Json& joint, const char* coil) {
    return static_cast<std::size_t>(
        std::ranges::count_if(joint.at("coils").at(coil).at("notes"), [](const Json& note) {
            return note.get<std::string>().starts_with(
                "held beside Breakwater, neck (pickup 2), of the same owner and instrument");
        }));
}

TEST(JointOverHttp, HoldsEachCoilBesideTheSameOfTheInstrument) {
    TwoCoils pickup;
    pickup.examine();
    History history = pickup.bench.history();
    Pickup both = *history.pickup(1);
    both.owner = "A. Nonymous";
    both.instrument = "Breakwater, a guitar that does not exist";
    history.edit_pickup(both, random_id(), morning);
    both.id = random_id();
    both.name = "Breakwater, neck";
    both = history.add_pickup(both);
    const Visit visit{.id = random_id(), .pickup = both.id, .at = morning};
    history.begin_visit(visit);
    for (const Reading& reading : read_of("slug", 4010.0, 1.99))
        history.append_reading({.id = random_id(), .visit = visit.id, .at = morning, .reading = reading});
    history.store_verdict({.id = random_id(),
                           .visit = visit.id,
                           .coil = "slug",
                           .at = morning,
                           .fault = "healthy",
                           .probability = 0.98,
                           .decided = true,
                           .healthy = true,
                           .document = "{}"});
    const Json told = {{"dc_resistance", "8.077k"}};

    const struct {
        const char* what;
        Json joint;
        std::size_t beside;
    } rows[] = {
        {"shown", pickup.get("/api/pickups/1/joint"), 1},
        {"shown alone", pickup.get("/api/pickups/1/joint?alone=on"), 0},
        {"told more", pickup.post("/api/pickups/1/whole", told, 201), 1},
        {"told more, alone", pickup.post("/api/pickups/1/whole?alone=on", told, 201), 0},
    };

    for (const auto& row : rows) {
        EXPECT_EQ(held_beside(row.joint, "slug"), row.beside) << row.what;
        EXPECT_EQ(held_beside(row.joint, "screw"), 0U) << row.what << ": nothing was read of the neck's";
    }
}

TEST(JointOverHttp, DoesNotOfferToExamineTheWhole) {
    TwoCoils pickup;
    pickup.examine();
    const Json before = pickup.get("/api/bench/unfinished");
    EXPECT_EQ(before.at("unfinished").size(), 2U) << "two coils without a verdict";
    pickup.post("/api/pickups/1/whole", {{"polarity", "as_expected"}}, 201);
    const Json answer = pickup.get("/api/bench/unfinished");
    for (const Json& each : answer.at("unfinished"))
        EXPECT_NE(each.at("coil"), "whole");
}

TEST(JointOverHttp, KeepsTheCoilsInTheOrderOfTheirType) {
    TwoCoils pickup;
    const auto coils = pickup.bench.history().pickup(1)->coils;
    ASSERT_EQ(coils.size(), 2U);
    EXPECT_EQ(coils[0].name, "slug") << "first in rules/pickups/dual-coil-series.toml, last by the alphabet";
    EXPECT_EQ(coils[1].name, "screw");
}

TEST(JointOverHttp, RefusesCoilsThatTheTypeDoesNotHave) {
    TwoCoils pickup;

    const struct {
        const char* what;
        Json coils;
    } rows[] = {
        {"one is missing", {{"slug", "slug-coil-42"}}},
        {"another name", {{"slug", "slug-coil-42"}, {"bolt", "screw-coil-42"}}},
        {"one too many", {{"slug", "slug-coil-42"}, {"screw", "screw-coil-42"}, {"third", "screw-coil-42"}}},
    };

    for (const auto& row : rows) {
        const Json refused = pickup.post(
            "/api/pickups",
            {{"name", "Breakwater, neck"}, {"pickup_type", "dual-coil-series"}, {"coils", row.coils}}, 400);
        EXPECT_EQ(
            refused.at("error"),
            "coils: a pickup of the type dual-coil-series has the coils slug, screw; give a model for each")
            << row.what;
    }
}

TEST(JointOverHttp, SaysWhatIsMissing) {
    TwoCoils pickup;
    EXPECT_THAT(pickup.get("/api/pickups/1/joint", 404).at("error").get<std::string>(),
                HasSubstr("examine its coils first"));
    pickup.examine();

    const struct {
        Json body;
        int status;
        const char* says;
    } rows[] = {
        {Json::object(), 400, "give at least one of dc_resistance"},
        {{{"dc_resistance", "much"}}, 400, "dc_resistance: \"much\" is no number"},
        {{{"dc_resistance", "8k±0"}}, 400, "dc_resistance: \"8k±0\" has no uncertainty above 0"},
        {{{"inductance", "-1"}}, 400, "inductance: \"-1\" is not above 0"},
        {{{"inductance", "over-range"}}, 400, "inductance: \"over-range\" is no number"},
        {{{"polarity", "up"}}, 400, "as_expected, reversed or none"},
    };

    const std::size_t kept = pickup.latest_readings().size();
    for (const auto& row : rows)
        EXPECT_THAT(pickup.post("/api/pickups/1/whole", row.body, row.status).at("error").get<std::string>(),
                    HasSubstr(row.says));
    EXPECT_EQ(pickup.latest_readings().size(), kept) << "what is refused leaves nothing behind";
    pickup.post("/api/pickups", {{"name", "Lantern"}, {"coil_model", "six-rod-42"}}, 201);
    EXPECT_THAT(pickup.get("/api/pickups/2/joint", 409).at("error").get<std::string>(),
                HasSubstr("has one coil"));
}

} // namespace
} // namespace coilward

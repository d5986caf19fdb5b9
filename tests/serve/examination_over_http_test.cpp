#include "raw_client.h"
#include "served_bench.h"

#include <functional>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::json;
using testing::RawClient;
using testing::ServedBench;

/// A device at the bench, which looks at its stream and answers.
class Device {
public:
    explicit Device(const ServedBench& bench) : client_(bench.client()), stream_(bench.port()) {
        stream_.send(
            fmt::format("GET /api/bench/stream HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", bench.port()));
    }

    Json get(const std::string& path) {
        const auto answer = client_.Get(path);
        return answer ? Json::parse(answer->body) : Json();
    }

    Json examination() { return get("/api/bench").at("examination"); }

    int post(const std::string& path, const Json& body) {
        const auto answer = client_.Post(path, body.dump(), "application/json");
        return answer ? answer->status : 0;
    }

    /// Waits, by its stream, until the examination is in one of the phases.
    Json wait_for(std::initializer_list<std::string> phases) {
        for (int events = 0; events < 400; ++events) {
            const Json now = examination();
            for (const std::string& phase : phases)
                if (now.at("phase") == phase) return now;
            if (stream_.answer("event: ", 20000).empty()) break;
        }
        ADD_FAILURE() << "it never came to that: " << examination().dump(1);
        return examination();
    }

    void wait_for_event() { stream_.answer("event: ", 20000); }

    /// Waits, by its stream, until the first meter's face is as it should be.
    Json wait_for_meter(const std::function<bool(const Json&)>& as_it_should_be) {
        for (int events = 0; events < 400; ++events) {
            const Json face = get("/api/bench").at("meters").at(0);
            if (as_it_should_be(face)) return face;
            if (stream_.answer("event: ", 20000).empty()) break;
        }
        ADD_FAILURE() << "the meter never came to that";
        return get("/api/bench").at("meters").at(0);
    }

    /// How many readings the stream brought between the phase's beginning and the next one.
    int meter_events_while(const std::string& phase) {
        std::string all;
        const std::string begins = "\"phase\":\"" + phase + "\"";
        std::size_t from = std::string::npos;
        for (int pieces = 0; pieces < 400; ++pieces) {
            const std::string piece = stream_.answer("event: ", 20000);
            if (piece.empty()) break;
            all += piece;
            from = all.find(begins);
            if (from == std::string::npos) continue;
            const std::size_t to = all.find("event: examination", from);
            if (to == std::string::npos) continue;
            int count = 0;
            for (std::size_t at = all.find("event: meter", from); at < to;
                 at = all.find("event: meter", at + 1))
                ++count;
            return count;
        }
        ADD_FAILURE() << "there was no phase " << phase;
        return 0;
    }

    int reply(const Json& examination, const char* word, Json more = Json::object()) {
        more["step"] = examination.at("step");
        more["reply"] = word;
        return post("/api/bench/reply", more);
    }

private:
    httplib::Client client_;
    RawClient stream_;
};

void begin(Device& device) {
    ASSERT_EQ(device.post("/api/pickups",
                          {{"name", "Lighthouse, neck"}, {"owner", ""}, {"coil_model", "six-rod-42"}}),
              201);
    ASSERT_EQ(device.post("/api/bench/examination",
                          {{"pickup", 1}, {"complaint", "silent"}, {"temperature", 22.4}}),
              201);
}

/// What is asked for at the leads and takes no watching for a kick.
bool is_quick_at_the_leads(const Json& now) {
    return now.at("phase") == "placing" && now.at("instruction").at("between") == "leads" &&
           now.at("instruction").at("quantity") != "polarity";
}

/// Takes what is asked for at the leads, leaves out the rest, until it is over.
Json carry_through(Device& device) {
    Json answered; // step
    for (int events = 0; events < 400; ++events) {
        const Json now = device.wait_for({"placing", "touching", "telling", "mending", "finished", "failed"});
        if (now.at("phase") == "finished" || now.at("phase") == "failed") return now;
        if (now.at("step") == answered) { // the examination has not taken the answer up yet
            device.wait_for_event();
            continue;
        }
        device.reply(now, is_quick_at_the_leads(now) ? "ready" : "skip");
        answered = now.at("step");
    }
    return device.examination();
}

TEST(ExaminationOverHttp, ADeadPickupFromIntakeToItsVerdict) {
    const ServedBench bench;
    Device device(bench);
    begin(device);
    const Json asked = device.wait_for({"placing"});
    EXPECT_EQ(asked.at("instruction").at("what"), "DC resistance");
    EXPECT_EQ(asked.at("instruction").at("meter"), "dmm-scpi");
    const Json end = carry_through(device);
    EXPECT_EQ(end.at("phase"), "finished") << end.dump(1);
    EXPECT_EQ(end.at("diagnosis").at("verdict").at("fault"), "open");
    const Json kept = device.get("/api/pickups/1");
    const Json& visit = kept.at("visits").at(0);
    EXPECT_EQ(visit.at("notes"), "silent");
    EXPECT_EQ(visit.at("verdicts").at(0).at("fault"), "open");
    ASSERT_GE(visit.at("readings").size(), 2U);
    EXPECT_EQ(visit.at("readings").at(0).at("quantity"), "temperature");
    EXPECT_EQ(device.post("/api/bench/clear", Json::object()), 200);
    EXPECT_EQ(device.examination().at("phase"), "idle");
}

/// Begins with the pickup of a guitar whose other one was judged sound.
void begin_beside_another(const ServedBench& bench, Device& device, const Json& more) {
    for (const char* name : {"Lighthouse, neck", "Lighthouse, bridge"})
        ASSERT_EQ(device.post("/api/pickups", {{"name", name},
                                               {"owner", "A. Nonymous"},
                                               {"instrument", "Lighthouse"},
                                               {"coil_model", "six-rod-42"}}),
                  201);
    History history = bench.history();
    const Visit visit{.id = random_id(), .pickup = history.pickup(2)->id, .at = Moment{}};
    history.begin_visit(visit);
    history.append_reading({.id = random_id(),
                            .visit = visit.id,
                            .reading = {.quantity = Quantity::dc_resistance, .value = 6112.0}});
    history.store_verdict({.id = random_id(),
                           .visit = visit.id,
                           .fault = "healthy",
                           .probability = 0.98,
                           .decided = true,
                           .healthy = true,
                           .document = "{}"});
    Json body{{"pickup", 1}, {"temperature", 22.4}};
    body.update(more);
    ASSERT_EQ(device.post("/api/bench/examination", body), 201);
}

TEST(ExaminationOverHttp, IsHeldBesideTheOtherPickupsOfTheInstrument) {
    const struct {
        Json more;
        bool beside;
    } rows[] = {
        {Json::object(), true},
        {{{"alone", false}}, true},
        {{{"alone", true}}, false},
        {{{"rewound", true}}, false},
    };

    for (const auto& row : rows) {
        const ServedBench bench;
        Device device(bench);
        begin_beside_another(bench, device, row.more);
        device.reply(device.wait_for({"placing"}), "stop");
        device.wait_for({"finished"});
        const Json verdicts = device.get("/api/pickups/1").at("visits").at(0).at("verdicts");
        EXPECT_EQ(verdicts.dump().find("held beside Lighthouse, bridge (pickup 2), of the same owner and "
                                       "instrument") != std::string::npos,
                  row.beside)
            << row.more << verdicts.dump(1);
    }
    const ServedBench bench;
    Device device(bench);
    begin_beside_another(bench, device, {{"alone", true}});
    EXPECT_EQ(device.post("/api/bench/examination", {{"pickup", 1}, {"alone", "on"}}), 400);
}

TEST(ExaminationOverHttp, TwoDevicesSeeTheSameAndOneAnswerCounts) {
    const ServedBench bench;
    Device tablet(bench);
    Device phone(bench);
    begin(tablet);
    const Json at_tablet = tablet.wait_for({"placing"});
    const Json at_phone = phone.wait_for({"placing"});
    EXPECT_EQ(at_tablet, at_phone);
    EXPECT_EQ(phone.post("/api/bench/examination", {{"pickup", 1}}), 409) << "one coil at a time";
    EXPECT_EQ(phone.post("/api/bench/clear", Json::object()), 409);
    EXPECT_EQ(phone.reply(at_phone, "ready"), 200);
    EXPECT_EQ(tablet.reply(at_tablet, "skip"), 409) << "the other was first";
    EXPECT_EQ(carry_through(phone).at("phase"), "finished");
    EXPECT_EQ(tablet.examination().at("phase"), "finished");
}

TEST(ExaminationOverHttp, AMeterThatIsPulledAndPutBackGoesOn) {
    ServedBench bench;
    Device device(bench);
    begin(device);
    const Json asked = device.wait_for({"placing"});
    bench.meter.unplug();
    EXPECT_EQ(device.reply(asked, "ready"), 200);
    const Json hindered = device.wait_for({"mending"});
    EXPECT_NE(hindered.at("trouble").get<std::string>().find("tcp://127.0.0.1:"), std::string::npos);
    bench.meter.plug();
    const Json on_again = device.wait_for({"placing", "touching", "telling", "finished"});
    EXPECT_FALSE(on_again.at("heard").empty()) << "the reading was taken without another word";
    EXPECT_EQ(carry_through(device).at("phase"), "finished");
}

TEST(ExaminationOverHttp, AKickIsWatchedForAndNeedNotBe) {
    const ServedBench bench;
    Device device(bench);
    begin(device);
    Json watching = device.wait_for({"placing", "touching"});
    while (watching.at("phase") != "touching") { // the probes are at the leads then: it begins by itself
        const Json step = watching.at("step");
        device.reply(watching, is_quick_at_the_leads(watching) ? "ready" : "skip");
        for (watching = device.wait_for({"placing", "touching"}); watching.at("step") == step;
             watching = device.wait_for({"placing", "touching"}))
            device.wait_for_event();
    }
    EXPECT_EQ(watching.at("instruction").at("quantity"), "polarity");
    const Json meter = device.wait_for_meter([](const Json& face) {
        return face.contains("reading") && face.at("reading").at("quantity") == "dc_voltage";
    });
    EXPECT_EQ(meter.at("state"), "reading") << "the numbers stay live while the kick is watched for";
    EXPECT_EQ(device.reply(watching, "skip"), 200);
    const Json told = device.wait_for({"telling"});
    EXPECT_EQ(told.at("instruction").at("quantity"), "polarity");
    EXPECT_EQ(device.reply(told, "ready", {{"polarity", "none"}}), 200);
    EXPECT_EQ(carry_through(device).at("phase"), "finished");
}

TEST(ExaminationOverHttp, TheNumbersAreLiveWhileAReadingIsTaken) {
    const ServedBench bench;
    Device device(bench);
    begin(device);
    const Json asked = device.wait_for({"placing"});
    EXPECT_EQ(device.reply(asked, "ready"), 200);
    EXPECT_GE(device.meter_events_while("taking"), 1);
    carry_through(device);
}

TEST(ExaminationOverHttp, OneThatWasBrokenOffGoesOnAfterTheProgramWasEnded) {
    testing::TemporaryFolder folder;
    std::size_t readings = 0;
    {
        const ServedBench bench({.host = "127.0.0.1", .port = 0}, {}, nullptr, &folder);
        Device device(bench);
        begin(device);
        const Json asked = device.wait_for({"placing"});
        EXPECT_EQ(device.reply(asked, "ready"), 200);
        while (device.wait_for({"placing", "touching", "telling"}).at("step") == asked.at("step"))
            device.wait_for_event();
        readings = device.get("/api/pickups/1").at("visits").at(0).at("readings").size();
        EXPECT_EQ(readings, 2U) << "temperature and DC resistance";
    }
    const ServedBench bench({.host = "127.0.0.1", .port = 0}, {}, nullptr, &folder);
    Device device(bench);
    EXPECT_EQ(device.examination().at("phase"), "idle");
    const Json unfinished = device.get("/api/bench/unfinished").at("unfinished");
    ASSERT_EQ(unfinished.size(), 1U);
    EXPECT_EQ(unfinished.at(0).at("name"), "Lighthouse, neck");
    EXPECT_EQ(unfinished.at(0).at("readings"), readings);
    EXPECT_EQ(device.post("/api/bench/examination", {{"pickup", 1}, {"visit", "no such"}}), 404);
    ASSERT_EQ(device.post("/api/bench/examination", {{"pickup", 1}, {"visit", unfinished.at(0).at("visit")}}),
              201);
    const Json on = device.wait_for({"placing", "touching", "telling"});
    EXPECT_NE(on.at("instruction").at("what"), "temperature");
    EXPECT_NE(on.at("instruction").at("what"), "DC resistance") << "nothing that was read is asked again";
    EXPECT_EQ(carry_through(device).at("phase"), "finished");
    const Json visits = device.get("/api/pickups/1").at("visits");
    ASSERT_EQ(visits.size(), 1U);
    EXPECT_GE(visits.at(0).at("readings").size(), readings);
    EXPECT_EQ(visits.at(0).at("notes"), "silent");
}

TEST(ExaminationOverHttp, TheRewindRecordShowsUnderItsOwnPolicy) {
    const ServedBench bench;
    Device device(bench);
    begin(device);
    carry_through(device);
    auto client = bench.client();
    const auto record = client.Get("/api/pickups/1/record");
    ASSERT_TRUE(record);
    EXPECT_EQ(record->status, 200);
    EXPECT_EQ(record->get_header_value_count("Content-Security-Policy"), 1U);
    EXPECT_TRUE(record->get_header_value("Content-Security-Policy")
                    .starts_with("default-src 'none'; style-src 'sha256-"));
    EXPECT_NE(record->body.find("Record of a rewind"), std::string::npos);
}

} // namespace
} // namespace coilward

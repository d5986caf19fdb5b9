// What the page does beside an examination: plans, confirmations, comparisons, corrections, pictures, coil
// models.

#include "raw_client.h"
#include "served_bench.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::json;
using testing::RawClient;
using testing::ServedBench;
using testing::status_of;

constexpr Moment morning{std::chrono::milliseconds(1774862400000)}; // 2026-03-30T09:20:00Z
constexpr std::chrono::hours later{6};

Reading told(Quantity quantity, double value, double uncertainty) {
    return {.quantity = quantity, .value = value, .standard_uncertainty = uncertainty};
}

/// A visit with temperature, DC resistance, inductance, polarity and insulation of a coil as six-rod-42 is.
Visit visited(History& history, const Id& pickup, Moment at, double resistance_ohm) {
    const Visit visit{
        .id = random_id(), .pickup = pickup, .at = at, .stage = "read", .rewound = true, .notes = {}};
    history.begin_visit(visit);
    Reading inductance = told(Quantity::inductance, 2.336, 0.008);
    inductance.frequency_hz = 1000.0;
    inductance.circuit = Circuit::series;
    Reading insulation{.quantity = Quantity::insulation_resistance,
                       .between = Between::start_frame,
                       .state = State::over_range,
                       .limit = 20e6};
    for (const Reading& reading :
         {told(Quantity::temperature, 21.4, 0.5), told(Quantity::dc_resistance, resistance_ohm, 9.0),
          inductance, Reading{.quantity = Quantity::polarity, .polarity = Polarity::as_expected}, insulation})
        history.append_reading(
            {.id = random_id(), .visit = visit.id, .at = at, .meter = {}, .port = {}, .reading = reading});
    return visit;
}

/// The bench's server with one pickup that was read twice.
struct Workshop {
    ServedBench bench;
    Visit before, after;
    httplib::Client client = bench.client();

    Workshop() {
        History history = bench.history();
        const Pickup pickup = history.add_pickup({.id = random_id(),
                                                  .added_at = morning,
                                                  .name = "Harbour, bridge",
                                                  .owner = {},
                                                  .instrument = {},
                                                  .pickup_type = {},
                                                  .coils = {{"", "six-rod-42"}},
                                                  .notes = {}});
        before = visited(history, pickup.id, morning, 6121.0);
        after = visited(history, pickup.id, morning + later, 6137.0);
    }

    Json get(const std::string& path, int status = 200) {
        const auto answer = client.Get(path);
        EXPECT_TRUE(answer);
        EXPECT_EQ(answer->status, status) << path << ": " << answer->body;
        return Json::parse(answer->body);
    }

    Json post(const std::string& path, const Json& body, int status) {
        const auto answer = client.Post(path, body.dump(), "application/json");
        EXPECT_TRUE(answer);
        EXPECT_EQ(answer->status, status) << answer->body;
        return Json::parse(answer->body);
    }
};

TEST(WorkshopOverHttp, PlansAWinding) {
    Workshop shop;
    const std::string bobbin = "&core=56mm,4.8mm&flange=70mm,16mm&height=10.5mm";
    const Json plan = shop.get("/api/plan?model=six-rod-42&dc-resistance=6.25k" + bobbin);
    // By hand: 42 AWG has 1.659 ohm per foot (ASTM B258), so 6.25 kΩ take 1148.3 m. A turn around the core is
    // 2 × 51.2 mm + π × 4.8 mm = 117.48 mm; N turns of 70 µm at a packing of 0.75 in 10.5 mm lie N × 0.6222
    // µm deep and the middle turn is longer by π times that: N (117.48 mm + N × 1.9548 µm) = 1148.3 m.
    EXPECT_NEAR(plan.at("turns").get<double>(), 8556.0, 10.0);
    EXPECT_EQ(plan.at("words").at("turns"), fmt::format("{:.0f}", plan.at("turns").get<double>()));
    EXPECT_EQ(plan.at("words").at("figures").size(), plan.at("figures").size());
    EXPECT_EQ(plan.at("inputs").at("sources").at("core"), "said");
    EXPECT_EQ(plan.at("inputs").at("sources").at("wire size"), "the coil model six-rod-42");
    EXPECT_EQ(plan.at("inputs").at("sources").at("packing"),
              "assumed: 0.75 ± 0.08, own estimate for scatter winding");

    // What cannot be planned is said with the field's name.
    const struct {
        const char* query;
        const char* says;
    } rows[] = {
        {"model=strip-44", "target: say one of turns, dc-resistance, inductance or as-it-was"},
        {"model=strip-44&dc-resistance=much", "dc-resistance: \"much\" is no number"},
        {"model=no-such&turns=8000", "model: there is no coil model \"no-such\""},
        {"turns=8000", "core: say it, or name a coil model"},
        {"model=six-rod-42&turns=8000", "core: say it; the coil model six-rod-42 does not tell"},
        {"model=six-rod-42&turns=8000&awg=42.5", "awg: \"42.5\" is no gauge"},
        {"model=six-rod-42&as-it-was=1",
         "as-it-was: Harbour, bridge has no visit that judged this coil sound"},
    };

    for (const auto& row : rows)
        EXPECT_THAT(shop.get(std::string("/api/plan?") + row.query, 400).at("error").get<std::string>(),
                    ::testing::StartsWith(row.says));
}

TEST(WorkshopOverHttp, ConfirmsARewindAgainstItsOrder) {
    Workshop shop;
    const Json passed =
        shop.get("/api/pickups/1/"
                 "confirmation?turns=7950&limit=dc_resistance%3D5.9k..6.4k&limit=inductance@1kHz%3D2.2..2.5");
    EXPECT_EQ(passed.at("decision"), "pass") << passed.dump(1);
    EXPECT_EQ(passed.at("turns").at("counted"), 7950.0);
    for (const Json& checked : passed.at("checked"))
        if (checked.at("quantity") == "dc_resistance") {
            EXPECT_EQ(checked.at("limits_from"), "the order");
        }
    EXPECT_EQ(passed.at("words").at("decision"), "PASS");
    EXPECT_EQ(shop.get("/api/pickups/1/confirmation?limit=dc_resistance%3D5k..5.5k").at("decision"), "fail");
    EXPECT_THAT(
        shop.get("/api/pickups/1/confirmation?limit=dc_resistance", 400).at("error").get<std::string>(),
        HasSubstr("is no limit; write QUANTITY=LOW..HIGH"));
    const auto record =
        shop.client.Get("/api/pickups/1/record?turns=7950&limit=dc_resistance%3D5.9k..6.4k&tested_by=A.");
    ASSERT_TRUE(record);
    for (const char* said : {"Record of a rewind", "PASS", "the order", "7950", "Tested by A."})
        EXPECT_THAT(record->body, HasSubstr(said));
}

TEST(WorkshopOverHttp, ComparesTwoVisits) {
    Workshop shop;
    const auto ask = [&](const Id& before, const Id& after) {
        return fmt::format("/api/pickups/1/comparison?before={}&after={}", text_of(before), text_of(after));
    };
    const Json words = shop.get(ask(shop.before.id, shop.after.id)).at("words");
    EXPECT_EQ(words.at("titles").at(0), "Harbour, bridge (2026-03-30, read)");
    bool compared = false;
    for (const Json& quantity : words.at("quantities"))
        if (quantity.at("title") == "DC resistance") {
            compared = true;
            EXPECT_EQ(quantity.at("says"), "no more than chance");
        }
    EXPECT_TRUE(compared);
    shop.get(ask(shop.before.id, random_id()), 404);
}

TEST(WorkshopOverHttp, CorrectsAReadingOnceAndKeepsBoth) {
    Workshop shop;
    const Json readings = shop.get("/api/pickups/1").at("visits").at(1).at("readings");
    const auto of = [&](const char* quantity) {
        for (const Json& reading : readings)
            if (reading.at("quantity") == quantity) return reading.at("id");
        return Json();
    };
    const Json wrong = of("dc_resistance");
    const std::string path = "/api/pickups/1/corrections";
    EXPECT_EQ(shop.post(path, {{"reading", wrong}, {"value", "6.2k"}}, 409).at("error"),
              "say why it was wrong");
    shop.post(path, {{"reading", wrong}, {"value", "6.2 H"}, {"why", "x"}}, 400);
    shop.post(path, {{"reading", of("polarity")}, {"value", "1"}, {"why", "x"}}, 409);
    shop.post(path, {{"reading", "no such"}, {"value", "6.2k"}, {"why", "x"}}, 404);
    const Json after =
        shop.post(path, {{"reading", wrong}, {"value", "6.2k"}, {"why", "misread the range"}}, 201);
    std::size_t corrected = 0;
    for (const Json& reading : after.at("visits").at(1).at("readings")) {
        if (reading.at("quantity") != "dc_resistance") continue;
        if (reading.at("corrected") == true) {
            EXPECT_EQ(reading.at("id"), wrong);
            ++corrected;
        } else {
            EXPECT_EQ(reading.at("value"), 6200.0);
            EXPECT_EQ(reading.at("standard_uncertainty"), 9.0) << "as it was";
            EXPECT_EQ(reading.at("remark"), "misread the range");
            EXPECT_EQ(reading.at("corrects"), wrong);
        }
    }
    EXPECT_EQ(corrected, 1U);
    shop.post(path, {{"reading", wrong}, {"value", "6.3k"}, {"why", "again"}}, 409);
}

TEST(WorkshopOverHttp, KeepsPicturesAndNothingElse) {
    Workshop shop;
    const std::string png = std::string("\x89PNG\r\n\x1A\n", 8) + "the rest of it";
    const std::string path = "/api/pickups/1/pictures?note=before%20its%20tape&name=..%2F..%2Fevil%22name";
    const auto kept = shop.client.Post(path, png, "image/png");
    ASSERT_TRUE(kept);
    ASSERT_EQ(kept->status, 201) << kept->body;
    const Json attachment = Json::parse(kept->body).at("pickup").at("attachments").at(0);
    EXPECT_EQ(attachment.at("name"), "evilname.png");
    EXPECT_EQ(attachment.at("note"), "before its tape");
    const std::string hash = attachment.at("sha256");
    const auto shown = shop.client.Get("/api/pickups/1/attachments/" + hash);
    ASSERT_TRUE(shown);
    EXPECT_EQ(shown->status, 200);
    EXPECT_EQ(shown->body, png);
    EXPECT_EQ(shown->get_header_value("Content-Type"), "image/png");
    EXPECT_EQ(shown->get_header_value("X-Content-Type-Options"), "nosniff");
    EXPECT_EQ(shown->get_header_value_count("Content-Security-Policy"), 1U);
    EXPECT_EQ(shown->get_header_value("Content-Security-Policy"), "default-src 'none'; sandbox");
    const auto refused = [&](const std::string& bytes, const char* type) {
        const auto answer = shop.client.Post("/api/pickups/1/pictures", bytes, type);
        return answer ? answer->status : 0;
    };
    EXPECT_EQ(refused("<svg xmlns='http://www.w3.org/2000/svg'/>", "image/png"), 415)
        << "by its bytes, not its name";
    EXPECT_EQ(refused("<svg xmlns='http://www.w3.org/2000/svg'/>", "image/svg+xml"), 415);
    EXPECT_EQ(refused(png, "text/plain"), 415) << "a form of another page can send that";
    EXPECT_EQ(shop.get("/api/pickups/1").at("pickup").at("attachments").size(), 1U);
    shop.get("/api/pickups/1/attachments/" + std::string(64, '0'), 404);
}

TEST(WorkshopOverHttp, APictureMayBeLargeAndADocumentMayNot) {
    Workshop shop;
    std::string png = std::string("\x89PNG\r\n\x1A\n", 8);
    png.resize(3'000'000, 'x');
    const auto kept = shop.client.Post("/api/pickups/1/pictures", png, "image/png");
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->status, 201);
    png.resize(8 * 1024 * 1024 + 1, 'x');
    const RawClient client(shop.bench.port());
    client.send(fmt::format(
        "POST /api/pickups/1/pictures HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nContent-Type: image/png\r\n"
        "Content-Length: {}\r\n\r\n",
        shop.bench.port(), png.size()));
    EXPECT_EQ(status_of(client.answer()), 413) << "before any of it is read";
    const RawClient document(shop.bench.port());
    document.send(
        fmt::format("POST /api/pickups HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nContent-Type: application/json\r\n"
                    "Content-Length: 70000\r\n\r\n",
                    shop.bench.port()));
    EXPECT_EQ(status_of(document.answer()), 413);
}

TEST(WorkshopOverHttp, ShowsWhatEachAnswerSaysOfANewCoilModel) {
    Workshop shop;
    const auto range = [&](const Json& answer, const char* quantity) {
        for (const Json& each : answer.at("ranges"))
            if (each.at("quantity") == quantity) return each.at("range");
        return Json("no such quantity");
    };
    const std::string bobbin = "/api/new-coil-model?awg=42&core=56mm,4.8mm&flange=70mm,16mm&height=10.5mm";
    const Json nothing = shop.get("/api/new-coil-model");
    EXPECT_TRUE(range(nothing, "DC resistance").is_null());
    const Json wide = range(shop.get(bobbin), "DC resistance");
    const Json narrow = range(shop.get(bobbin + "&turns=7500..8100"), "DC resistance");
    EXPECT_LT(narrow.at(1).get<double>() - narrow.at(0).get<double>(),
              wide.at(1).get<double>() - wide.at(0).get<double>());
    const Json made = shop.get(bobbin + "&turns=7500..8100&id=lighthouse-neck&title=Lighthouse");
    EXPECT_THAT(made.at("file").get<std::string>(), HasSubstr("id = \"lighthouse-neck\""));
    EXPECT_FALSE(shop.get("/api/new-coil-model?id=nothing-known").at("trouble").get<std::string>().empty());
    EXPECT_EQ(shop.get("/api/new-coil-model?core=56mm", 400).at("error"),
              "core: a bobbin takes all of core, flange and height");
}

} // namespace
} // namespace coilward

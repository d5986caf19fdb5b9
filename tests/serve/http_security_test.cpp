#include "raw_client.h"
#include "served_bench.h"

#include <chrono>
#include <mutex>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::RawClient;
using testing::ServedBench;
using testing::status_of;

std::string asked(const ServedBench& bench, const std::string& bytes) {
    const RawClient client(bench.port());
    client.send(bytes);
    client.finish_sending();
    return client.answer();
}

/// A whole request with the given heading lines; the right Host where none is given.
std::string request(const ServedBench& bench, const std::string& line, const std::string& fields = "",
                    const std::string& body = "") {
    const std::string host =
        fields.find("Host:") == std::string::npos ? fmt::format("Host: 127.0.0.1:{}\r\n", bench.port()) : "";
    return fmt::format("{} HTTP/1.1\r\n{}{}\r\n{}", line, host, fields, body);
}

std::string change(const ServedBench& bench, const std::string& path, const std::string& fields,
                   const std::string& body) {
    return request(
        bench, "POST " + path,
        fields + fmt::format("Content-Type: application/json\r\nContent-Length: {}\r\n", body.size()), body);
}

TEST(HttpSecurity, EveryAnswerCarriesTheSafeHeaders) {
    const ServedBench bench;
    for (const std::string& bytes :
         {request(bench, "GET /"), request(bench, "GET /api/bench"), request(bench, "GET /nothing"),
          request(bench, "GET /", "Host: rebound.example\r\n"), request(bench, "PUT /api/pickups")}) {
        const std::string answer = asked(bench, bytes);
        EXPECT_THAT(answer, HasSubstr("Content-Security-Policy: default-src 'none'; script-src 'self'"));
        EXPECT_THAT(answer, HasSubstr("X-Content-Type-Options: nosniff"));
        EXPECT_THAT(answer, HasSubstr("X-Frame-Options: DENY"));
        EXPECT_THAT(answer, Not(HasSubstr("unsafe-inline")));
        EXPECT_THAT(answer, Not(HasSubstr("Access-Control-")));
    }
}

TEST(HttpSecurity, RefusesAndChangesNothing) {
    const ServedBench bench;
    const std::string body = R"({"name":"from elsewhere"})";
    const std::string own = fmt::format("Origin: http://127.0.0.1:{}\r\n", bench.port());

    const struct {
        std::string bytes;
        int status;
    } rows[] = {
        {change(bench, "/api/pickups", "Origin: http://evil.example\r\n", body), 403},
        {change(bench, "/api/pickups", "Origin: null\r\n", body), 403},
        {change(bench, "/api/pickups", "Sec-Fetch-Site: cross-site\r\n", body), 403},
        {change(bench, "/api/pickups", "Host: rebound.example:80\r\n", body), 421},
        {change(bench, "/api/pickups", own + "Transfer-Encoding: chunked\r\n", body), 415},
        {request(bench, "POST /api/pickups", own + "Content-Length: 25\r\nContent-Type: text/plain\r\n",
                 body),
         415},
        {request(bench, "POST /api/pickups", own + "Content-Type: application/json\r\n", body), 411},
        {request(bench, "GET /api/pickups?name=x", own, ""), 200},
        {request(bench, "GET /api/bench/examination", own, ""), 404},
        {request(bench, "GET /api/bench/clear", own, ""), 404},
        {request(bench, "DELETE /api/pickups/1", own, ""), 405},
        {request(bench, "OPTIONS /api/pickups", "Origin: http://evil.example\r\n", ""), 405},
        {request(bench, "GET /../../etc/passwd"), 404},
        {request(bench, "GET /%2e%2e/%2e%2e/etc/passwd"), 404},
        {request(bench, "GET //etc/passwd"), 404},
        {request(bench, "GET /style.css%00.html"), 404},
        {request(bench, "GET /page/style.css"), 404},
        {change(bench, "/api/pickups", own, "{\"name\":\"twice\",\"name\":\"twice\"}"), 400},
        {change(bench, "/api/pickups", own, "[]"), 400},
        {change(bench, "/api/pickups", own, "{\"name\":\" \"}"), 400},
        {change(bench, "/api/pickups", own, R"({"name":"x","coil_model":"no-such"})"), 400},
        {change(bench, "/api/bench/reply", own, R"({"step":1,"reply":"ready"})"), 409},
        {change(bench, "/api/bench/reply", own, R"({"step":-1,"reply":"ready"})"), 400},
        {change(bench, "/api/bench/examination", own, R"({"pickup":7})"), 404},
    };

    for (const auto& row : rows)
        EXPECT_EQ(status_of(asked(bench, row.bytes)), row.status) << row.bytes;
    EXPECT_TRUE(bench.history().pickups().empty());
}

TEST(HttpSecurity, BytesBehindARefusedRequestAreNoRequest) {
    const ServedBench bench;
    // What another page's form may hide in a body: a whole request with the right headings.
    const std::string hidden = change(bench, "/api/pickups", "", R"({"name":"smuggled"})");
    for (const char* origin :
         {"Origin: http://evil.example\r\n", "Connection: keep-alive\r\nOrigin: null\r\n"})
        EXPECT_EQ(status_of(asked(bench, change(bench, "/api/pickups", origin, hidden))), 403);
    EXPECT_TRUE(bench.history().pickups().empty());
}

TEST(HttpSecurity, RefusesTooMuch) {
    const ServedBench bench;
    const std::string much(70'000, 'x');
    EXPECT_EQ(status_of(asked(bench, change(bench, "/api/pickups", "", "\"" + much + "\""))), 413);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /" + std::string(9000, 'a')))), 414);
    std::string many;
    for (int i = 0; i < 20'000; ++i)
        many += fmt::format("X-{}: y\r\n", i);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench", many))), 400);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench"))), 200);
}

TEST(HttpSecurity, ARequestThatDripsInIsGivenUp) {
    const ServedBench bench({.host = "127.0.0.1", .port = 0}, {.to_ask = std::chrono::milliseconds(700)});
    std::vector<RawClient> slow;
    for (int i = 0; i < 40; ++i) {
        slow.emplace_back(bench.port());
        slow.back().send("GET /api/bench HTTP/1.1\r\nHost: 127");
    }
    const auto began = std::chrono::steady_clock::now();
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench"))), 200)
        << "others are served meanwhile";
    for (const RawClient& client : slow) {
        client.send(".");
        EXPECT_EQ(status_of(client.answer()), 400);
    }
    EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(10));
}

/// A request with some bytes changed, left out or put in.
std::string damaged(std::string bytes, std::mt19937& random) {
    const auto any = [&](std::size_t below) {
        return std::uniform_int_distribution<std::size_t>(0, below - 1)(random);
    };
    for (std::size_t i = any(6); i > 0 && !bytes.empty(); --i) {
        const std::size_t at = any(bytes.size());
        const char byte = static_cast<char>(any(256));
        if (any(3) == 0)
            bytes.erase(at, any(20));
        else if (any(2) == 0)
            bytes.insert(at, 1 + any(40), byte);
        else
            bytes[at] = byte;
    }
    return bytes;
}

TEST(HttpSecurity, TenThousandRandomRequestsChangeNothing) {
    const ServedBench bench;
    const std::string evil = "Host: rebound.example\r\nOrigin: http://evil.example\r\n";
    const std::vector<std::string> patterns{
        request(bench, "GET /"),
        request(bench, "GET /api/pickups?search=%41"),
        request(bench, "GET /api/pickups/1"),
        request(bench, "HEAD /api/bench"),
        request(bench, "GET /dygraph.min.js", "Range: bytes=0-10\r\nIf-None-Match: \"x\"\r\n"),
        change(bench, "/api/pickups", evil, R"({"name":"x"})"),
        change(bench, "/api/bench/examination", evil, R"({"pickup":1})"),
        request(bench, "PATCH /api/pickups/1", evil + "Content-Length: 2\r\n", "{}"),
        std::string(300, '\xff'),
        "",
    };
    std::mt19937 random(20261125);
    int answered = 0;
    for (int i = 0; i < 10'000; ++i) {
        const std::string answer =
            asked(bench, damaged(patterns[static_cast<std::size_t>(i) % patterns.size()], random));
        answered += status_of(answer) > 0 ? 1 : 0;
        ASSERT_NE(status_of(answer), 201);
        ASSERT_NE(status_of(answer), 500) << answer;
    }
    EXPECT_GT(answered, 3'000);
    EXPECT_TRUE(bench.history().pickups().empty());
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench"))), 200);
}

TEST(HttpSecurity, TwoHundredIdleStreamsLeaveTheBenchGoingOn) {
    const ServedBench bench;
    std::vector<RawClient> idle;
    for (int i = 0; i < 200; ++i) {
        idle.emplace_back(bench.port());
        idle.back().send(request(bench, "GET /api/bench/stream"));
    }
    for (const RawClient& client : idle)
        EXPECT_THAT(client.answer("event: bench"), HasSubstr("text/event-stream"));
    const RawClient live(bench.port());
    live.send(request(bench, "GET /api/bench/stream"));
    EXPECT_THAT(live.answer("event: meter"), HasSubstr("event: meter")) << "readings still come";
    const auto began = std::chrono::steady_clock::now();
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench"))), 200);
    EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(1));
}

TEST(HttpSecurity, OffLoopbackADeviceMustPair) {
    MachineClock clock;
    std::mutex mutex; // a new code is shown by the thread that refused the last
    std::string code;
    Pairing pairing(clock, [&](const std::string& shown) {
        const std::lock_guard lock(mutex);
        code = shown;
    });
    const auto code_now = [&] {
        const std::lock_guard lock(mutex);
        return code;
    };
    const ServedBench bench({.host = "0.0.0.0", .port = 0, .loopback = false}, {}, &pairing);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench"))), 401);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /app.js"))), 401);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench", "Cookie: coilward_device=\r\n"))), 401);
    EXPECT_EQ(status_of(asked(bench, change(bench, "/api/pickups", "", R"({"name":"x"})"))), 401);
    EXPECT_THAT(asked(bench, request(bench, "GET /")), HasSubstr("Location: /pair"));
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /pair"))), 200);
    EXPECT_EQ(status_of(asked(bench, change(bench, "/api/pair", "", R"({"code":"x"})"))), 403);
    const std::string paired =
        asked(bench, change(bench, "/api/pair", "", fmt::format(R"({{"code":"{}"}})", code_now())));
    EXPECT_EQ(status_of(paired), 200);
    const auto from = paired.find("coilward_device=");
    ASSERT_NE(from, std::string::npos);
    EXPECT_THAT(paired, HasSubstr("; HttpOnly; SameSite=Strict; Path=/"));
    const std::string cookie = paired.substr(from, paired.find(';', from) - from);
    EXPECT_EQ(status_of(asked(bench, request(bench, "GET /api/bench", "Cookie: a=b; " + cookie + "\r\n"))),
              200);
    EXPECT_TRUE(bench.history().pickups().empty());
}

} // namespace
} // namespace coilward

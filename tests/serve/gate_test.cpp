#include "serve/gate.h"

#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

const ListenAddress here{.host = "127.0.0.1", .port = 8420, .loopback = true};
const ListenAddress everywhere{.host = "0.0.0.0", .port = 8420, .loopback = false};

RequestFacts read_by_page() {
    return {.method = "GET", .hosts = 1, .host = "127.0.0.1:8420", .fetch_site = "same-origin"};
}

RequestFacts change_by_page() {
    return {.method = "POST",
            .hosts = 1,
            .host = "127.0.0.1:8420",
            .origin = "http://127.0.0.1:8420",
            .fetch_site = "same-origin",
            .content_type = "application/json",
            .has_length = true};
}

int status_of(const RequestFacts& request, const ListenAddress& listening = here) {
    const auto refusal = refusal_of(request, listening);
    return refusal ? refusal->status : 0;
}

TEST(Gate, LetsThePageAndPlainProgramsIn) {
    EXPECT_EQ(status_of(read_by_page()), 0);
    EXPECT_EQ(status_of(change_by_page()), 0);
    auto program = change_by_page();
    program.origin.reset();
    program.fetch_site.reset();
    EXPECT_EQ(status_of(program), 0);
    auto typed = read_by_page();
    typed.fetch_site = "none";
    EXPECT_EQ(status_of(typed), 0);
    auto other_name = read_by_page();
    other_name.host = "localhost:8420";
    EXPECT_EQ(status_of(other_name), 0);
}

TEST(Gate, RefusesHostNamesThatAreNotItsOwn) {
    // A name whose owner rebinds it to 127.0.0.1 is still the owner's in Host.
    for (const char* host : {"rebound.example:8420", "rebound.example", "127.0.0.1", "127.0.0.1:80", "",
                             "127.0.0.1:8420:8420", "127.0.0.2:8420", "192.168.1.4:8420", "[::1]:8420",
                             "localhost.example:8420", "user@127.0.0.1:8420"}) {
        auto request = read_by_page();
        request.host = host;
        EXPECT_EQ(status_of(request), 421) << host;
    }
    auto twice = read_by_page();
    twice.hosts = 2;
    EXPECT_EQ(status_of(twice), 421);
    auto none = read_by_page();
    none.hosts = 0;
    EXPECT_EQ(status_of(none), 421);
}

TEST(Gate, OffLoopbackTakesAddressesButNoNames) {
    auto request = read_by_page();
    for (const char* host : {"192.168.1.4:8420", "[fe80::1]:8420", "localhost:8420"}) {
        request.host = host;
        EXPECT_EQ(status_of(request, everywhere), 0) << host;
    }
    for (const char* host : {"rebound.example:8420", "bench:8420", "192.168.1.4:81", "192.168.1.4"}) {
        request.host = host;
        EXPECT_EQ(status_of(request, everywhere), 421) << host;
    }
}

TEST(Gate, RefusesOtherOriginsAndSites) {
    for (const char* origin : {"http://evil.example", "https://127.0.0.1:8420", "http://127.0.0.1:8421",
                               "http://localhost:8420", "null", ""}) {
        auto change = change_by_page();
        change.origin = origin;
        EXPECT_EQ(status_of(change), 403) << origin;
        auto read = read_by_page();
        read.origin = origin;
        EXPECT_EQ(status_of(read), 403) << origin;
    }
    for (const char* site : {"cross-site", "same-site", ""}) {
        auto read = read_by_page();
        read.fetch_site = site;
        EXPECT_EQ(status_of(read), 403) << site;
    }
}

TEST(Gate, RefusesBodiesThatAFormOfAnotherPageCanSend) {
    for (const char* type : {"application/x-www-form-urlencoded", "text/plain",
                             "multipart/form-data; boundary=x", "", "application/jsonp"}) {
        auto change = change_by_page();
        change.content_type = type;
        EXPECT_EQ(status_of(change), 415) << type;
    }
    auto endless = change_by_page();
    endless.has_length = false;
    EXPECT_EQ(status_of(endless), 411);
    auto packed = change_by_page();
    packed.has_other_encoding = true;
    EXPECT_EQ(status_of(packed), 415);
}

TEST(Gate, KnowsFourMethods) {
    for (const char* method : {"PUT", "DELETE", "OPTIONS", "CONNECT", "TRACE", "get", "POKE"}) {
        auto request = change_by_page();
        request.method = method;
        EXPECT_EQ(status_of(request), 405) << method;
    }
    EXPECT_EQ(refusal_of({.method = "GET", .hosts = 1, .host = "rebound.example:8420"}, here)->says,
              "this server answers to its own address only: http://127.0.0.1:8420/");
}

} // namespace
} // namespace coilward

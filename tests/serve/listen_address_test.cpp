#include "serve/listen_address.h"

#include <stdexcept>

#include <gtest/gtest.h>

namespace coilward {
namespace {

TEST(ListenAddress, ReadsAddressesAndPorts) {
    const struct {
        const char* text;
        const char* authority;
        bool loopback;
    } rows[] = {
        {"127.0.0.1:9000", "127.0.0.1:9000", true}, {"127.0.0.1", "127.0.0.1:8420", true},
        {"localhost:0", "127.0.0.1:0", true},       {"127.8.8.8:1", "127.8.8.8:1", true}, // RFC 1122, 3.2.1.3
        {"[::1]:9000", "[::1]:9000", true},         {"::1", "[::1]:8420", true},
        {"0.0.0.0:8420", "0.0.0.0:8420", false},    {"192.168.1.4", "192.168.1.4:8420", false},
        {"[::]:65535", "[::]:65535", false},
    };

    for (const auto& row : rows) {
        const ListenAddress address = listen_address_from_text(row.text);
        EXPECT_EQ(authority_of(address), row.authority);
        EXPECT_EQ(address.loopback, row.loopback) << row.text;
    }
}

TEST(ListenAddress, RefusesTheRestInOneLine) {
    for (const char* text : {"", "bench", "127.0.0.1:", "127.0.0.1:65536", "127.0.0.1:-1", "127.0.0.1:80x",
                             "[::1", "[::1]8420", "256.0.0.1:1", "http://127.0.0.1"}) {
        try {
            listen_address_from_text(text);
            FAIL() << text;
        } catch (const std::invalid_argument& error) {
            EXPECT_EQ(std::string(error.what()),
                      "\"" + std::string(text) +
                          "\" is no address to listen on; write ADDRESS:PORT, as 127.0.0.1:8420 or "
                          "[::1]:8420");
        }
    }
}

} // namespace
} // namespace coilward

// Ten meters on one machine, each pulled out and put back twenty times at random moments while it streams, on
// terminal devices and over TCP. Each reading that a meter sends has a number of its own.

#include "bench/descriptor_transport.h"
#include "bench/lasting_watch.h"
#include "capture_folder.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <filesystem>
#include <iostream>
#include <random>
#include <thread>

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <termios.h>
#include <unistd.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;
using std::chrono::steady_clock;

constexpr int meters = 10;
constexpr int pulls_of_each = 20;

/// What the person has seen of one meter.
struct Shown {
    std::atomic<int> last = 0; ///< number of the last reading
    std::vector<int> numbers;  ///< of all
};

/// A place where a meter is put in and pulled out again.
class Socket {
public:
    virtual ~Socket() = default;

    /// As `--port` takes it; stays the same.
    virtual std::string name() const = 0;

    virtual void put_in() = 0;
    virtual void pull_out() = 0;
    virtual void send(std::string_view bytes) = 0;
};

/// A new pseudo-terminal each time, under a link that stays, as /dev/serial/by-id does.
class TerminalSocket : public Socket {
public:
    explicit TerminalSocket(fs::path link) : link_(std::move(link)) {}

    std::string name() const override { return link_.string(); }

    void put_in() override {
        meter_ = Descriptor(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC));
        ASSERT_TRUE(meter_.is_open() && ::grantpt(meter_.get()) == 0 && ::unlockpt(meter_.get()) == 0);
        std::array<char, 64> path{};
        ASSERT_EQ(::ptsname_r(meter_.get(), path.data(), path.size()), 0);
        device_ = Descriptor(::open(path.data(), O_RDWR | O_NOCTTY | O_CLOEXEC));
        termios settings{};
        ASSERT_EQ(::tcgetattr(device_.get(), &settings), 0);
        ::cfmakeraw(&settings);
        ASSERT_EQ(::tcsetattr(device_.get(), TCSANOW, &settings), 0);
        fs::create_symlink(path.data(), link_);
    }

    void pull_out() override {
        fs::remove(link_);
        device_.close();
        meter_.close();
    }

    void send(std::string_view bytes) override {
        ASSERT_EQ(::write(meter_.get(), bytes.data(), bytes.size()), static_cast<ssize_t>(bytes.size()));
    }

private:
    fs::path link_;
    Descriptor meter_;
    Descriptor device_; ///< held open, so that the first host finds what was sent before it came
};

/// A listener at the same port number each time.
class NetworkSocket : public Socket {
public:
    NetworkSocket() {
        listen();
        sockaddr_in address{};
        socklen_t size = sizeof address;
        ::getsockname(listener_.get(), reinterpret_cast<sockaddr*>(&address), &size); // NOLINT: made so
        number_ = ntohs(address.sin_port);
        listener_.close();
    }

    std::string name() const override { return fmt::format("tcp://127.0.0.1:{}", number_); }

    void put_in() override { listen(); }

    void pull_out() override {
        listener_.close();
        host_.close();
    }

    void send(std::string_view bytes) override {
        if (!host_.is_open()) host_ = Descriptor(::accept4(listener_.get(), nullptr, nullptr, SOCK_CLOEXEC));
        ASSERT_EQ(::send(host_.get(), bytes.data(), bytes.size(), MSG_NOSIGNAL),
                  static_cast<ssize_t>(bytes.size()));
    }

private:
    void listen() {
        listener_ = Descriptor(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0));
        const int on = 1;
        ::setsockopt(listener_.get(), SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_port = htons(number_);
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        const auto* generic = reinterpret_cast<const sockaddr*>(&address); // NOLINT: made so
        ASSERT_EQ(::bind(listener_.get(), generic, sizeof address), 0) << number_;
        ASSERT_EQ(::listen(listener_.get(), 1), 0);
    }

    std::uint16_t number_ = 0;
    Descriptor listener_;
    Descriptor host_;
};

/// A frame of `stx16` that shows so many ohms.
std::string frame_of(int number) {
    return fmt::format("\x02"
                       "413800{:08}\r",
                       number);
}

/// Streams and is pulled in the middle of a frame, again and again. Gives the longest time from a return to
/// the first reading that was shown.
milliseconds stream_and_be_pulled(Socket& socket, const Shown& shown, unsigned seed, int& number) {
    std::mt19937 random(seed);
    milliseconds longest{0};
    for (int pull = 0; pull < pulls_of_each; ++pull) {
        std::this_thread::sleep_for(milliseconds(random() % 15)); // out for so long
        socket.put_in();
        const auto returned = steady_clock::now();
        const int first = number + 1;
        for (unsigned left = 1 + random() % 4; left > 0; --left) {
            const std::string frame = frame_of(++number);
            const std::size_t cut = random() % frame.size();
            socket.send(frame.substr(0, cut));
            socket.send(frame.substr(cut));
        }
        while (shown.last < first && steady_clock::now() - returned < std::chrono::seconds(10))
            std::this_thread::sleep_for(milliseconds(1));
        longest = std::max(longest, std::chrono::ceil<milliseconds>(steady_clock::now() - returned));
        while (shown.last < number && steady_clock::now() - returned < std::chrono::seconds(10))
            std::this_thread::sleep_for(milliseconds(1));
        socket.send(frame_of(number + 1).substr(0, random() % 16)); // never the whole of it
        socket.pull_out();
    }
    return longest;
}

/// One meter and the watch that reads it. Gives the same.
milliseconds watch_one(Socket& socket, unsigned seed) {
    const Driver& driver = shipped_driver("stx16");
    Shown shown;
    std::atomic<bool> over = false;
    milliseconds longest{0};
    int sent = 0;
    std::atomic<bool> opened = false;
    const auto open = [&] {
        const auto deadline = steady_clock::now() + std::chrono::seconds(10);
        for (;;) { // only the first opening may fail for long
            try {
                Link link = open_port(port_from_text(socket.name()), driver.serial);
                opened = true;
                return link;
            } catch (const TransportError&) {
                if (opened || steady_clock::now() > deadline) throw;
                std::this_thread::sleep_for(milliseconds(1));
            }
        }
    };
    std::thread meter([&] {
        longest = stream_and_be_pulled(socket, shown, seed, sent);
        over = true;
    });
    WatchOrder order;
    order.stop = [&] { return over.load(); };
    int losses = 0;
    watch_lasting(driver, open, order,
                  {.reading =
                       [&](const StampedReading& stamped) {
                           shown.numbers.push_back(static_cast<int>(stamped.reading.value.value_or(-1.0)));
                           shown.last = shown.numbers.back();
                       },
                   .lost = [&] { ++losses; },
                   .back = [] {}});
    meter.join();
    std::vector<int> wanted;
    for (int number = 1; number <= sent; ++number)
        wanted.push_back(number);
    EXPECT_EQ(shown.numbers, wanted) << "lost, invented or shown twice, seed " << seed;
    EXPECT_GE(losses, pulls_of_each - 1); // the last one ends the watch
    EXPECT_LT(longest, std::chrono::seconds(1));
    return longest;
}

void watch_all(const std::vector<std::unique_ptr<Socket>>& sockets) {
    std::vector<std::thread> watches;
    std::vector<milliseconds> longest(sockets.size());
    for (unsigned i = 0; i < sockets.size(); ++i)
        watches.emplace_back([&, i] { longest[i] = watch_one(*sockets[i], i + 1); });
    for (std::thread& each : watches)
        each.join();
    std::cout << fmt::format("{} returns, the first reading at most {} ms behind\n", meters * pulls_of_each,
                             std::ranges::max(longest).count());
}

TEST(Replug, LosesAndInventsNothingOnTerminals) {
    const fs::path folder = fs::temp_directory_path() / fmt::format("coilward-replug-{}", ::getpid());
    fs::create_directories(folder);
    std::vector<std::unique_ptr<Socket>> sockets;
    for (int i = 0; i < meters; ++i)
        sockets.push_back(std::make_unique<TerminalSocket>(folder / fmt::format("meter-{}", i)));
    watch_all(sockets);
    fs::remove_all(folder);
}

TEST(Replug, LosesAndInventsNothingOverTcp) {
    std::vector<std::unique_ptr<Socket>> sockets;
    for (int i = 0; i < meters; ++i)
        sockets.push_back(std::make_unique<NetworkSocket>());
    watch_all(sockets);
}

} // namespace
} // namespace coilward

#include "serve/pairing.h"

#include "history/id.h"

#include <cstdint>

#include <fmt/format.h>

namespace coilward {
namespace {

/// 2⁶⁴ is 1.8·10¹¹ times as many as there are codes: no digit is more likely than another by more than that.
std::string random_code() {
    const Id random = random_id();
    std::uint64_t number = 0;
    for (const std::size_t i : {0U, 1U, 2U, 3U, 4U, 5U, 10U, 11U}) // six bits of a UUID are fixed
        number = number << 8U | random.bytes[i];
    return fmt::format("{:08}", number % 100'000'000U);
}

/// Takes as long for a code that is wrong at once as for one that is wrong at its end.
bool same(const std::string& a, const std::string& b) {
    if (a.size() != b.size()) return false;
    unsigned difference = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        difference |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]);
    return difference == 0;
}

std::string device_token() {
    const auto first = text_of(random_id());
    return first + text_of(random_id());
}

} // namespace

Pairing::Pairing(const Clock& clock, std::function<void(const std::string& code)> show)
    : clock_(clock), show_(std::move(show)) {
    new_code();
}

void Pairing::new_code() {
    code_ = random_code();
    show_(code_);
}

Pairing::Answer Pairing::try_code(const std::string& code) {
    const std::lock_guard lock(mutex_);
    const auto now = clock_.elapsed();
    if (wrong_ > 0 && now - first_wrong_ >= window) wrong_ = 0;
    if (wrong_ >= tries) return {Outcome::too_many, {}};
    if (!same(code, code_)) {
        if (wrong_++ == 0) first_wrong_ = now;
        if (wrong_ == tries) new_code();
        return {Outcome::wrong, {}};
    }
    const std::string device = device_token();
    devices_.insert(device);
    new_code();
    return {Outcome::paired, device};
}

bool Pairing::knows(const std::string& device) const {
    const std::lock_guard lock(mutex_);
    return devices_.contains(device);
}

} // namespace coilward

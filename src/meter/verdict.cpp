#include "meter/verdict.h"

namespace coilward {

std::string_view name(Verdict verdict) {
    switch (verdict) {
    case Verdict::reading:
        return "reading";
    case Verdict::aside:
        return "aside";
    case Verdict::too_short:
        return "too_short";
    case Verdict::no_start:
        return "no_start";
    case Verdict::bad_structure:
        return "bad_structure";
    case Verdict::bad_check:
        return "bad_check";
    case Verdict::senseless:
        return "senseless";
    case Verdict::not_live:
        return "not_live";
    }
    return "";
}

VerdictCounts& VerdictCounts::operator+=(const VerdictCounts& other) {
    for (std::size_t kind = 0; kind < verdict_kinds; ++kind) {
        pieces_[kind] += other.pieces_[kind];
        bytes_[kind] += other.bytes_[kind];
    }
    return *this;
}

std::size_t VerdictCounts::pieces(Verdict verdict) const {
    return pieces_[static_cast<std::size_t>(verdict)];
}

std::size_t VerdictCounts::bytes(Verdict verdict) const {
    return bytes_[static_cast<std::size_t>(verdict)];
}

std::size_t VerdictCounts::bytes_that_are_no_reading() const {
    std::size_t total = 0;
    for (std::size_t kind = 0; kind < verdict_kinds; ++kind)
        total += bytes_[kind];
    return total - bytes(Verdict::reading) - bytes(Verdict::aside);
}

} // namespace coilward

#pragma once

#include "history/history.h"

#include <SQLiteCpp/Exception.h>

namespace coilward {

/// What went wrong with which file and what a person can do, on one line.
HistoryError explained(const std::string& file, const SQLite::Exception&);

/// Does the work; an error of SQLite leaves as HistoryError.
template <typename Work>
decltype(auto) explaining(const std::string& file, Work&& work) {
    try {
        return work();
    } catch (const SQLite::Exception& error) {
        throw explained(file, error);
    }
}

} // namespace coilward

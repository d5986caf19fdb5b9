#pragma once

#include "history/history.h"

#include <pqxx/except>

namespace coilward {

/// What went wrong with which server and what a person can do, on one line.
HistoryError explained_server(const std::string& place, const std::exception&);

/// Does the work; an error of the server or of the connection leaves as HistoryError.
template <typename Work>
decltype(auto) explaining_server(const std::string& place, Work&& work) {
    try {
        return work();
    } catch (const HistoryError&) {
        throw;
    } catch (const std::exception& error) {
        throw explained_server(place, error);
    }
}

} // namespace coilward

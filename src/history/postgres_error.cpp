#include "history/postgres_error.h"

#include <fmt/format.h>

namespace coilward {
namespace {

/// The server's first line without its "ERROR:  "; what follows it tells of the server's own code.
std::string first_line(std::string_view text) {
    text = text.substr(0, text.find('\n'));
    for (const std::string_view kind : {"ERROR:  ", "FATAL:  "})
        if (const auto found = text.find(kind); found != std::string_view::npos)
            text.remove_prefix(found + kind.size());
    return std::string(text);
}

/// By the code of the error, https://www.postgresql.org/docs/15/errcodes-appendix.html.
std::string advice(const pqxx::sql_error& error) {
    const std::string& code = error.sqlstate();
    if (code == "55P03" || code == "40P01")
        return "another program is writing to this history; wait until it is done, or close it";
    if (code == "53100")
        return "the server's disk is full; make room and do it again (what was kept before is safe)";
    if (code == "42501" || code == "25006")
        return fmt::format(
            "the server lets this user not write ({}); ask whoever keeps it for the rights, or choose "
            "another history with --data",
            first_line(error.what()));
    if (code == "22021") return "a text that is no UTF-8 cannot be kept on a server; write it anew";
    return "the history refuses this: " + first_line(error.what());
}

} // namespace

HistoryError explained_server(const std::string& place, const std::exception& error) {
    if (const auto* sql = dynamic_cast<const pqxx::sql_error*>(&error); sql && !sql->sqlstate().empty())
        return HistoryError(fmt::format("{}: {}", place, advice(*sql)));
    return HistoryError(
        fmt::format("{}: the server does not answer ({}); see that it runs, that the words after "
                    "--data are right, and do it again (what was kept before is safe)",
                    place, first_line(error.what())));
}

} // namespace coilward

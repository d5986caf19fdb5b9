#include "cli/log.h"

#include <fmt/format.h>
#include <spdlog/logger.h>
#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/basic_file_sink.h>
#include <spdlog/sinks/null_sink.h>
#include <spdlog/sinks/stdout_sinks.h>

namespace coilward {
namespace {

spdlog::sink_ptr sink_for(const std::string& file) {
    if (file.empty()) return std::make_shared<spdlog::sinks::null_sink_mt>();
    if (file == "-") return std::make_shared<spdlog::sinks::stderr_sink_mt>();
    try {
        return std::make_shared<spdlog::sinks::basic_file_sink_mt>(file);
    } catch (const spdlog::spdlog_ex&) {
        throw BadInput(fmt::format("{}: the log cannot be written there; give another file to --log", file));
    }
}

} // namespace

Log open_log(const Session& session) {
    auto log = std::make_shared<spdlog::logger>("coilward", sink_for(session.log_file));
    log->set_formatter(std::make_unique<spdlog::pattern_formatter>("%Y-%m-%dT%H:%M:%S.%eZ %l %v",
                                                                   spdlog::pattern_time_type::utc));
    log->flush_on(spdlog::level::info); // a line is there when its minute is asked about
    return log;
}

void note(const Log& log, const std::string& line) {
    log->info(line);
}

void warn(const Log& log, const std::string& line) {
    log->warn(line);
}

} // namespace coilward

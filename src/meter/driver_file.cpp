#include "meter/driver_file.h"

#include "meter/driver_words.h"
#include "meter/line_file.h"
#include "toml/utf8.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

constexpr int longest_wait_ms = 60'000;

std::optional<milliseconds> read_wait(TableReader& table, std::string_view key) {
    const auto wait = table.whole_number(key, Need::optional, 0, longest_wait_ms);
    if (!wait) return std::nullopt;
    return milliseconds(*wait);
}

SerialSettings read_serial(TableReader& table) {
    static constexpr std::array<Word<Parity>, 3> parities{
        {{"none", Parity::none}, {"odd", Parity::odd}, {"even", Parity::even}}};
    SerialSettings serial;
    serial.baud = table.whole_number("baud", Need::required, 50, 4'000'000).value_or(serial.baud);
    serial.data_bits = table.whole_number("data_bits", Need::optional, 5, 8).value_or(serial.data_bits);
    serial.parity = table.word<Parity>("parity", Need::optional, parities).value_or(serial.parity);
    serial.stop_bits = table.whole_number("stop_bits", Need::optional, 1, 2).value_or(serial.stop_bits);
    serial.dtr = table.flag("dtr", Need::optional).value_or(serial.dtr);
    serial.rts = table.flag("rts", Need::optional).value_or(serial.rts);
    serial.power_up = read_wait(table, "power_up_ms").value_or(serial.power_up);
    serial.source = table.text("source", Need::required).value_or("");
    table.refuse_unknown_keys();
    return serial;
}

Poll read_poll(TableReader& table) {
    Poll poll;
    poll.command = table.text("send", Need::required).value_or("");
    poll.answer_within = read_wait(table, "answer_within_ms").value_or(poll.answer_within);
    poll.pause = read_wait(table, "pause_ms").value_or(poll.pause);
    table.refuse_unknown_keys();
    return poll;
}

Queries read_queries(TableReader& table) {
    Queries queries;
    queries.function = table.text("function", Need::optional).value_or("");
    queries.frequency = table.text("frequency", Need::optional).value_or("");
    queries.error = table.text("error", Need::optional).value_or("");
    queries.no_error = table.texts("no_error", queries.error.empty() ? Need::optional : Need::required);
    queries.identity = table.text("identity", Need::optional).value_or("");
    queries.identity_contains = table.texts("identity_contains", Need::optional);
    queries.answer_within = read_wait(table, "answer_within_ms").value_or(queries.answer_within);
    table.refuse_unknown_keys();
    return queries;
}

/// True for `frequency = "not stated"`: the meter uses a test signal of which its maker does not tell.
bool is_not_stated(const TableReader& table) {
    const TomlEntry* found = entry(table.content(), "frequency");
    const auto* text = found ? std::get_if<std::string>(&found->node.value) : nullptr;
    return text && *text == "not stated";
}

/// `frequency_range = [20, 2e6]`; for a setup at one frequency only `frequency = 1000`; or `"not stated"`.
void read_frequency(TableReader& table, MeterSetup& setup) {
    static constexpr Measure hertz{"hertz", above_zero, 1e8};
    if (is_not_stated(table) && !table.has("frequency_range")) {
        setup.frequency_not_stated = true;
        table.text("frequency", Need::optional);
        table.range("frequency_range", Need::optional, hertz);
        return;
    }
    if (!table.has("frequency_range")) {
        setup.lowest_frequency_hz = table.number("frequency", Need::optional, hertz);
        setup.highest_frequency_hz = setup.lowest_frequency_hz;
        table.range("frequency_range", Need::optional, hertz);
        return;
    }
    if (table.has("frequency"))
        table.complain(ComplaintKind::said_twice, "frequency",
                       "expected \"frequency\" or \"frequency_range\", not both");
    const auto range = table.range("frequency_range", Need::optional, hertz);
    if (!range) return;
    setup.lowest_frequency_hz = range->low;
    setup.highest_frequency_hz = range->high;
}

MeterSetup read_setup(TableReader& table) {
    MeterSetup setup;
    setup.name = table.text("name", Need::required).value_or("");
    setup.gives = read_quantities(table, "gives");
    setup.circuit = read_circuit(table, "circuit");
    read_frequency(table, setup);
    setup.commands = table.texts("commands", Need::optional);
    setup.by_hand = table.text("by_hand", Need::optional).value_or("");
    setup.function_names = table.texts("function_names", Need::optional);
    setup.range_limit = table.number("range_limit", Need::optional, {"the primary's unit", above_zero, 1e15});
    setup.settle = read_wait(table, "settle_ms").value_or(setup.settle);
    const bool said = table.has("frequency") || table.has("frequency_range");
    if (std::ranges::any_of(setup.gives, needs_frequency) && !said)
        table.complain(
            ComplaintKind::missing_key, "frequency",
            "missing, expected the frequency of the test signal (or frequency_range = [low, high]; "
            "or \"not stated\" where the maker does not tell)");
    table.refuse_unknown_keys();
    return setup;
}

AccuracyRow read_accuracy_row(TableReader& table) {
    AccuracyRow row;
    row.quantity = read_quantity(table, "quantity", Need::required).value_or(row.quantity);
    row.percent = table.number("percent", Need::required, {"percent of reading", 0.0, 100.0}).value_or(0.0);
    row.counts = table.number("counts", Need::optional, {"counts", 0.0, 10'000.0}).value_or(0.0);
    row.worse_at_low_quality = table.flag("worse_at_low_quality", Need::optional).value_or(false);
    if (const auto range = table.range("frequency_range", Need::optional, {"hertz", above_zero, 1e8})) {
        row.lowest_frequency_hz = range->low;
        row.highest_frequency_hz = range->high;
    }
    row.up_to = table.number("up_to", Need::optional, {"the quantity's unit", above_zero, 1e15});
    row.source = table.text("source", Need::required).value_or("");
    table.refuse_unknown_keys();
    return row;
}

CompiledScan compiled_scan(std::string_view id) {
    const auto scans = compiled_scans();
    const auto found = std::ranges::find(scans, id, &CompiledScan::driver);
    return found == scans.end() ? CompiledScan{} : *found;
}

FrameCheck read_frame_check(TableReader& frame) {
    static constexpr std::array<Word<FrameCheck>, 2> words{
        {{"structure", FrameCheck::structure}, {"none", FrameCheck::none}}};
    return frame.word<FrameCheck>("check", Need::optional, words).value_or(FrameCheck::structure);
}

/// A text protocol has a [line] table, a frame protocol a [frame] table and a function compiled in.
void read_protocol(TableReader& file, Driver& driver) {
    auto line = file.table("line", Need::optional);
    auto frame = file.table("frame", Need::optional);
    if (line.has_value() == frame.has_value()) {
        file.complain(ComplaintKind::not_exactly_one, "line",
                      "expected one of two tables: [line] for lines of text, [frame] for other frames");
        return;
    }
    if (line) {
        driver.line = read_line_protocol(*line);
        driver.longest_frame = driver.line->longest + 2;
        return;
    }
    driver.longest_frame =
        static_cast<std::size_t>(frame->whole_number("longest", Need::required, 2, 1000).value_or(2));
    driver.repeats = frame->whole_number("repeats", Need::optional, 1, 10).value_or(1);
    driver.frame_check = read_frame_check(*frame);
    frame->refuse_unknown_keys();
    driver.scan = compiled_scan(driver.id).scan;
    driver.show = compiled_scan(driver.id).show;
    if (!driver.scan)
        file.complain(
            ComplaintKind::missing_file, "frame",
            fmt::format("expected drivers/{}.cpp beside this file when the program was built", driver.id));
}

void read_heading(TableReader& file, Driver& driver) {
    static constexpr std::array<Word<DriverStatus>, 3> states{{{"draft", DriverStatus::draft},
                                                               {"checked", DriverStatus::checked},
                                                               {"proven", DriverStatus::proven}}};
    driver.id = file.text("id", Need::required).value_or("");
    const std::string expected_id = std::filesystem::path(driver.file).stem().string();
    if (!driver.id.empty() && driver.id != expected_id)
        file.complain(ComplaintKind::id_is_not_file_name, "id",
                      fmt::format("found \"{}\", expected \"{}\", as the file is named", shortened(driver.id),
                                  expected_id));
    driver.title = file.text("title", Need::required).value_or("");
    driver.status = file.word<DriverStatus>("status", Need::required, states).value_or(driver.status);
    driver.follows = file.texts("follows", Need::required);
    driver.instruments = file.texts("instruments", Need::required);
    driver.gaps = file.texts("gaps", Need::optional);
    driver.same_wire = file.texts("same_wire", Need::optional);
}

void read_commands(TableReader& file, Driver& driver) {
    if (auto table = file.table("commands", Need::optional)) {
        driver.command_end = read_line_end(*table, "end").value_or(driver.command_end);
        driver.start = table->texts("start", Need::optional);
        driver.answers = table->texts("answer", Need::optional);
        driver.refusals = table->texts("refusal", Need::optional);
        driver.command_pause = read_wait(*table, "pause_ms").value_or(driver.command_pause);
        driver.echoes_characters = table->flag("echo", Need::optional).value_or(false);
        if (!driver.refusals.empty() && driver.answers.empty())
            table->complain(ComplaintKind::missing_key, "answer",
                            "missing, expected how the meter answers a command that it accepts");
        table->refuse_unknown_keys();
    }
    if (auto table = file.table("poll", Need::optional)) driver.poll = read_poll(*table);
    if (auto table = file.table("queries", Need::optional)) driver.queries = read_queries(*table);
}

} // namespace

std::optional<Driver> read_driver(const std::filesystem::path& path, std::vector<Complaint>& complaints) {
    const auto source = read_toml(path, complaints);
    return source ? read_driver(*source, complaints) : std::nullopt;
}

std::optional<Driver> read_driver(const TomlSource& source, std::vector<Complaint>& complaints) {
    const std::size_t complaints_before = complaints.size();
    TableReader file(source, complaints);
    Driver driver;
    driver.file = source.file;
    read_heading(file, driver);
    if (auto table = file.table("serial", Need::required)) driver.serial = read_serial(*table);
    read_commands(file, driver);
    for (TableReader& table : file.tables("setup", Need::required))
        driver.setups.push_back(read_setup(table));
    for (TableReader& table : file.tables("accuracy", Need::optional))
        driver.accuracy.push_back(read_accuracy_row(table));
    read_protocol(file, driver);
    file.refuse_unknown_keys();
    if (complaints.size() > complaints_before) return std::nullopt;
    return driver;
}

} // namespace coilward

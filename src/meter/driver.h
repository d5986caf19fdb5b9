#pragma once

#include "meter/frame.h"
#include "meter/line_protocol.h"
#include "reading/quantity.h"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// How far a driver may be trusted. It rises on evidence only (docs/drivers.md).
enum class DriverStatus {
    draft,   ///< parts of the protocol were not seen in a document
    checked, ///< captures made from the documents' own layouts and examples decode as they must
    proven,  ///< captures recorded from a real meter, with what its display showed
};

/// "draft", "checked", "proven".
std::string_view name(DriverStatus);

/// Of a serial character.
enum class Parity { none, odd, even };

/// What a frame protocol offers against damage.
enum class FrameCheck {
    structure, ///< text, digits, terminators or a checksum: a byte with its top bit damaged is refused
    none,      ///< any byte may stand anywhere: never to be found by listening, damage can pass
};

/// The serial line, and the state of its two control lines, from which some adapters take their power. 8N1
/// where the file does not say.
struct SerialSettings {
    int baud = 9600;   ///< bit per second
    int data_bits = 8; ///< 5 to 8
    Parity parity = Parity::none;
    int stop_bits = 1;                     ///< 1 or 2
    bool dtr = true;                       ///< true: asserted
    bool rts = true;                       ///< likewise
    std::chrono::milliseconds power_up{0}; ///< to wait after the lines are set, while an adapter charges
    std::string source;                    ///< where these settings come from
};

/// The question that makes a polled meter answer with a reading.
struct Poll {
    std::string command;                           ///< without terminator
    std::chrono::milliseconds answer_within{2000}; ///< longer is silence
    std::chrono::milliseconds pause{0};            ///< between an answer and the next question
};

/// One way to set the meter. A meter that is set by hand has `by_hand` in place of commands.
struct MeterSetup {
    std::string name;                          ///< in words
    std::vector<Quantity> gives;               ///< what the reply's value fields then are, in order
    std::optional<Circuit> circuit;            ///< in which the reply splits an impedance
    std::optional<double> lowest_frequency_hz; ///< both absent: no test signal, or one of unknown frequency
    std::optional<double> highest_frequency_hz;
    bool frequency_not_stated = false; ///< a multimeter's capacitance: its maker does not say at which
    std::vector<std::string> commands; ///< without terminator; "{frequency}" stands for the frequency in Hz
    std::string by_hand;               ///< one instruction to the person
    std::vector<std::string>
        function_names; ///< what the meter answers to Queries::function when it is set so
    /// End of the range that these commands select, SI unit of the first quantity.
    std::optional<double> range_limit;
    std::chrono::milliseconds settle{0}; ///< to wait after the commands
};

/// Questions about the meter itself. Each may be empty.
struct Queries {
    std::string function;              ///< what is set, answered with one of MeterSetup::function_names
    std::string frequency;             ///< of the test signal, answered in Hz
    std::string error;                 ///< whether the commands were accepted...
    std::vector<std::string> no_error; ///< ...and how the answer begins when they were
    std::string identity;              ///< who the meter is
    std::vector<std::string> identity_contains;   ///< texts of which one must be in the answer
    std::chrono::milliseconds answer_within{500}; ///< longer is silence
};

/// Half-width of a meter's error for one quantity, from a data sheet: percent of the reading plus counts of
/// the last digit.
struct AccuracyRow {
    Quantity quantity{};
    double percent = 0.0; ///< of the reading
    double counts = 0.0;  ///< of the last digit
    /// The percentage is multiplied by sqrt(1 + D²) (L, C) or sqrt(1 + Q²) (R) where the other part prevails.
    bool worse_at_low_quality = false;
    std::optional<double> lowest_frequency_hz; ///< both absent: at any frequency
    std::optional<double> highest_frequency_hz;
    std::optional<double> up_to; ///< magnitude to which the row holds, SI unit; absent: any
    std::string source;          ///< the data sheet, by page
};

/// Everything that is known of one family of meters that speak alike, read from drivers/ID.toml. Adding one
/// is one file in drivers/ (two for a frame protocol) and one folder in captures/.
struct Driver {
    std::string id;                            ///< the name of its file
    std::string title;                         ///< what the meters are
    std::string file;                          ///< as complaints name it
    DriverStatus status = DriverStatus::draft; ///< what the file says
    std::vector<std::string> follows;          ///< the documents, by page
    std::vector<std::string> instruments;      ///< those in whose documents the protocol was seen
    std::vector<std::string> gaps; ///< what no document told: for the owner to know and to look out for
    std::vector<std::string>
        same_wire; ///< ids of drivers that read the same bytes: ask the person, never guess
    SerialSettings serial;
    std::string command_end = "\n"; ///< behind every command and question; may be empty
    std::vector<std::string> start; ///< commands sent once after opening
    /// What the meter answers to every command, and how it refuses one; empty: it does not answer commands.
    /// A `*` at the end stands for any rest.
    std::vector<std::string> answers;
    std::vector<std::string> refusals;
    std::chrono::milliseconds command_pause{0}; ///< after every command
    bool echoes_characters = false;             ///< and takes the next character only after that
    std::optional<Poll> poll;                   ///< absent: the meter sends by itself
    Queries queries;
    std::vector<MeterSetup> setups;    ///< the first one is used where nothing is asked for
    std::vector<AccuracyRow> accuracy; ///< the first that covers a number counts
    int repeats = 1;                   ///< how many equal frames in a row the meter sends for one measurement
    std::optional<LineProtocol> line;  ///< a text protocol, described as data
    ScanFunction scan = nullptr;       ///< or a frame protocol, from drivers/ID.cpp
    ShowFunction show = nullptr;       ///< its other direction
    FrameCheck frame_check = FrameCheck::structure; ///< of a frame protocol; text always has structure
    std::size_t longest_frame = 80;                 ///< bytes
};

} // namespace coilward

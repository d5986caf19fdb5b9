#include "history/history.h"

#include "history/open_database.h"
#include "history/reading_words.h"
#include "history/store_error.h"

#include <SQLiteCpp/Database.h>

namespace coilward {

History::History(const std::filesystem::path& data_folder, HistoryOptions options)
    : file_(data_folder / "history.sqlite"), database_(open_database(file_, options)),
      words_(explaining(file_, [&] { return std::make_unique<ReadingWords>(*database_); })) {}

History::~History() = default;
History::History(History&&) noexcept = default;
History& History::operator=(History&&) noexcept = default;

} // namespace coilward

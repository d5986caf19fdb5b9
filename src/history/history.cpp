#include "history/history.h"

#include "history/open_database.h"
#include "history/reading_words.h"

namespace coilward {

History::History(const std::string& address, HistoryOptions options)
    : database_(open_database(address, options)), words_(std::make_unique<ReadingWords>(*database_)) {}

History::~History() = default;
History::History(History&&) noexcept = default;
History& History::operator=(History&&) noexcept = default;

const std::string& History::place() const {
    return database_->place();
}

bool History::copy_to(const std::filesystem::path& new_file) const {
    return database_->copy_to(new_file);
}

void History::all_or_nothing(const std::function<void()>& work) {
    Transaction transaction(*database_);
    work();
    transaction.commit();
}

} // namespace coilward

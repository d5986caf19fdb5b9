#include "history/database.h"
#include "history/history.h"
#include "history/reading_words.h"
#include "history/row_lookup.h"

#include <fmt/format.h>

namespace coilward {
namespace {

SqlValue sql_of_hash(const ContentHash& hash) {
    return Blob{std::string(hash.bytes.begin(), hash.bytes.end())};
}

ContentHash hash_in(const SqlValue& value) {
    ContentHash hash;
    std::ranges::copy(bytes_in(value), hash.bytes.begin());
    return hash;
}

} // namespace

void History::attach(const Attachment& attachment, std::string_view bytes) {
    require_id(*database_, "attachment", attachment.id);
    if (content_hash(bytes) != attachment.content)
        throw HistoryError(
            fmt::format("{}: the file \"{}\" is not what its hash says; copy it again from where it came",
                        place(), attachment.name));
    const SqlValue hash = sql_of_hash(attachment.content);
    Transaction transaction(*database_);
    if (database_->run("SELECT 1 FROM contents WHERE sha256 = $1", {hash}).empty())
        database_->run("INSERT INTO contents (sha256, bytes) VALUES ($1, $2)",
                       {hash, Blob{std::string(bytes)}});
    database_->run(R"sql(
        INSERT INTO attachments (uid, pickup_id, at_ms, name, media_type, note, sha256)
        VALUES ($1, $2, $3, $4, $5, $6, $7))sql",
                   {sql_of(attachment.id), pickup_row(*database_, attachment.pickup), sql_of(attachment.at),
                    attachment.name, attachment.media_type, attachment.note, hash});
    transaction.commit();
}

std::vector<Attachment> History::attachments_of(const Id& pickup) const {
    std::vector<Attachment> attachments;
    for (const SqlRow& row : database_->run(R"sql(
            SELECT uid, at_ms, name, media_type, note, sha256 FROM attachments
            WHERE pickup_id = $1 ORDER BY at_ms, uid)sql",
                                            {pickup_row(*database_, pickup)}))
        attachments.push_back({.id = id_in(row[0]),
                               .pickup = pickup,
                               .at = moment_in(row[1]),
                               .name = text_in(row[2]),
                               .media_type = text_in(row[3]),
                               .note = text_in(row[4]),
                               .content = hash_in(row[5])});
    return attachments;
}

std::string History::content(const ContentHash& hash) const {
    const auto rows = database_->run("SELECT bytes FROM contents WHERE sha256 = $1", {sql_of_hash(hash)});
    if (rows.empty())
        throw HistoryError(fmt::format("{}: there is no attached file {}; coilward pickup show lists them",
                                       place(), text_of(hash)));
    const std::string& bytes = bytes_in(rows.front()[0]);
    if (content_hash(bytes) != hash)
        throw HistoryError(fmt::format("{}: the attached file {} is damaged; use the latest good copy",
                                       place(), text_of(hash)));
    return bytes;
}

} // namespace coilward

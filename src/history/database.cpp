#include "history/database.h"

namespace coilward {

Transaction::Transaction(Database& database) : database_(database) {
    if (database_.depth_ == 0) database_.begin();
    ++database_.depth_;
}

Transaction::~Transaction() {
    if (!open_) return;
    --database_.depth_;
    if (database_.depth_ == 0) database_.roll_back();
}

void Transaction::commit() {
    if (database_.depth_ == 1) database_.commit();
    --database_.depth_;
    open_ = false;
}

} // namespace coilward

#pragma once

#include <cstdint>

#include "base/result.h"
#include "store/database.h"
#include "store/log_entry.h"

/// What some log entries have besides their row; inside of the store.
namespace coatwright {

/// Writes an entry's touch test, moisture, outcome and photo, as far as it has them.
/// @param id of its row. Errors: kStore.
[[nodiscard]] Result<void> insert_details(const Database& database,
                                          std::int64_t id,
                                          const LogEntry& entry);

}  // namespace coatwright

#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "store/database.h"
#include "store/log_entry.h"

/// From rows to log entries; inside of the store.
namespace coatwright {

/// Which entries: those of a piece's row, or one by its number.
enum class LogOf { kPiece, kEntry };

/// @return the entries with their findings and strikes, by time and then by number. Errors: kStore.
[[nodiscard]] Result<std::vector<LogEntry>> read_log(const Database& database,
                                                     LogOf which,
                                                     std::int64_t id);

}  // namespace coatwright

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

/// @return "coat", "step" or "skip": what was found is a step there.
[[nodiscard]] std::string_view kind_in_store(LogKind kind);

/// @return the entries with their details, findings and strikes, by time and then by number.
/// Errors: kStore.
[[nodiscard]] Result<std::vector<LogEntry>> read_log(const Database& database,
                                                     LogOf which,
                                                     std::int64_t id);

}  // namespace coatwright

#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "cli/common.h"
#include "store/log_entry.h"

/// Log entries in words and as JSON, for every command that shows one.
namespace coatwright {

/// "coat of dewaxed-shellac on the front of the top", "sand P150", "flip left out", "touch test
/// 'tacky' on the top", "wood moisture 9.0 %", "outcome 'runs' on the front".
[[nodiscard]] std::string deed_of(const LogEntry& entry);

/// "tack-free: not reached yet".
[[nodiscard]] std::string touch_words(const LoggedTouch& touch);
/// "9.0 %" of a fraction of the dry mass.
[[nodiscard]] std::string moisture_text(double fraction);

/// "Logged entry 7 for hall bench: sand P150, Fri 5 March 2027 14:00.", in lines of the page's
/// width.
[[nodiscard]] std::string logged_line(const LogEntry& entry, const Session& session);

/// "early by 3 h 20 min", "in window", "outside limits".
[[nodiscard]] std::string verdict_head(const LoggedFinding& finding);

/// "21.6 C, 44 %, dew point 8.8 C (reading)".
[[nodiscard]] std::string air_words(const LoggedAir& air, UnitSystem units);

/// A coat's findings in lines of the page's width: what was found, what may happen, what to do.
/// @param indent blanks before each line.
[[nodiscard]] std::string findings_as_text(const LogEntry& coat,
                                           const Session& session,
                                           std::size_t indent);

/// One entry with all that was kept, in lines of the page's width.
[[nodiscard]] std::string entry_as_text(const LogEntry& entry, const Session& session);
[[nodiscard]] nlohmann::ordered_json entry_as_json(const LogEntry& entry, const Session& session);

/// JSON as text; bytes that are no UTF-8 are replaced, since notes are typed on any terminal.
[[nodiscard]] std::string json_page(const nlohmann::ordered_json& whole);

}  // namespace coatwright

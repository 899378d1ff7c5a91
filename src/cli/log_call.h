#pragma once

#include <string>

#include "cli/common.h"
#include "store/log_entry.h"

namespace CLI {
class App;
}

/// What the commands that log have in common.
namespace coatwright {

/// The options of every command that logs something done, as typed; empty: not given.
struct LogOptions {
  std::string at;
  std::string part;
  std::string face;
  std::string by;
  std::string note;
  std::string photo;
};

/// Declares them.
void add_log_options(CLI::App& command, LogOptions& options);

/// When it was done: now, or what --at says, looking back. Errors: kTime; kOutOfRange for a time
/// that is still to come.
[[nodiscard]] Result<Time> time_done(const std::string& at, const Session& session);

/// What --why says. Errors: kUsage when nothing is in it.
[[nodiscard]] Result<std::string> reason(const std::string& why);

/// The unit of a piece that --part means; null: the whole piece, or a part of a piece that is not
/// divided. Errors: kUsage for a part that is no unit of a divided piece, naming those that are.
[[nodiscard]] Result<const StoredUnit*> unit_meant(const StoredPiece& piece,
                                                   const std::string& part);

/// An entry as far as piece and options give it. Errors: those of time_done() and unit_meant().
[[nodiscard]] Result<LogEntry> begun_entry(const StoredPiece& piece,
                                           const LogOptions& options,
                                           const Session& session);

/// The shop's air at a moment, as the log keeps it.
[[nodiscard]] LoggedAir logged_air(const AirState& air);
/// The same by the shop's record. Errors: kStore.
[[nodiscard]] Result<LoggedAir> air_logged_at(Time at, const Session& session);

/// An entry of something found, with its air: a touch test, a moisture, an outcome.
/// @param kind of those three. Errors: as begun_entry(), and kStore.
[[nodiscard]] Result<LogEntry> begun_finding(LogKind kind,
                                             const StoredPiece& piece,
                                             const LogOptions& options,
                                             const Session& session);

/// Logs an entry that is no coat, and gives it its number. Opens the store for writing only here,
/// so that nothing is made by a wrong call. Errors: from the store.
[[nodiscard]] Result<void> keep_entry(LogEntry& entry, const GlobalOptions& global);

}  // namespace coatwright

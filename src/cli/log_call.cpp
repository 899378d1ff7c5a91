#include "cli/log_call.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "base/time_expression.h"

namespace coatwright {

void add_log_options(CLI::App& command, LogOptions& options) {
  command.add_option("--at", options.at, "When it was done; a weekday looks back [now]")
      ->type_name("TIME");
  command.add_option("--part", options.part, "Part of the piece, such as top [all of it]")
      ->type_name("PART");
  command.add_option("--face", options.face, "front, back or both")
      ->check(CLI::IsMember({"front", "back", "both"}))
      ->type_name("FACE");
  command.add_option("--by", options.by, "Who did it")->type_name("MAKER");
  command.add_option("--note", options.note, "What else is worth keeping")->type_name("TEXT");
  command.add_option("--photo", options.photo, "File name of a photo of it")->type_name("FILE");
}

Result<Time> time_done(const std::string& at, const Session& session) {
  if (at.empty()) {
    return session.now;
  }
  const auto time = parse_time(at, session.now, session.zone, Direction::kBack);
  if (!time) {
    return pass_on(time.error(), "--at");
  }
  if (*time > session.now) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("--at {} is still to come, it is {}; the log keeps what was done",
                            show_full(*time, session.zone),
                            show_full(session.now, session.zone)));
  }
  return *time;
}

Result<std::string> reason(const std::string& why) {
  if (why.find_first_not_of(" \t\r\n") == std::string::npos) {
    return fail(ErrorCode::kUsage, "--why is empty: say in a few words why");
  }
  return why;
}

Result<const StoredUnit*> unit_meant(const StoredPiece& piece, const std::string& part) {
  if (part.empty() || piece.units.empty()) {
    return nullptr;
  }
  if (const StoredUnit* unit = piece.unit(part)) {
    return unit;
  }
  std::string known;
  for (const StoredUnit& unit : piece.units) {
    known += (known.empty() ? "" : ", ") + unit.name;
  }
  return fail(ErrorCode::kUsage,
              fmt::format("--part {}: the piece '{}' is finished as: {}", part, piece.name, known));
}

Result<LogEntry> begun_entry(const StoredPiece& piece,
                             const LogOptions& options,
                             const Session& session) {
  const auto at = time_done(options.at, session);
  if (!at) {
    return pass_on(at.error());
  }
  if (const auto unit = unit_meant(piece, options.part); !unit) {
    return pass_on(unit.error());
  }
  LogEntry entry;
  entry.piece = piece.name;
  entry.part = options.part;
  entry.face = options.face;
  entry.at = *at;
  entry.by = options.by;
  entry.note = options.note;
  entry.photo = options.photo;
  entry.logged_at = session.now;
  return entry;
}

LoggedAir logged_air(const AirState& air) {
  return {air.temperature, air.humidity, air.origin};
}

Result<LoggedAir> air_logged_at(Time at, const Session& session) {
  const auto air = session.air(at, at);
  if (!air) {
    return pass_on(air.error());
  }
  return logged_air(air->at(at));
}

Result<LogEntry> begun_finding(LogKind kind,
                               const StoredPiece& piece,
                               const LogOptions& options,
                               const Session& session) {
  auto entry = begun_entry(piece, options, session);
  if (!entry) {
    return entry;
  }
  const auto air = air_logged_at(entry->at, session);
  if (!air) {
    return pass_on(air.error());
  }
  entry->kind = kind;
  entry->step = name_of(kind);
  entry->air = *air;
  return entry;
}

Result<void> keep_entry(LogEntry& entry, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto ids = session->store.log_steps({entry});
  if (!ids) {
    return pass_on(ids.error());
  }
  entry.id = ids->front();
  return {};
}

}  // namespace coatwright

#include "store/log_rows.h"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "base/zone.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

constexpr std::string_view kSelectEntries =
    "SELECT e.id, p.name, e.kind, e.step, e.grit, e.part, e.face, e.product, e.revision, e.at, "
    "e.amount_l, e.maker, e.batch, e.note, e.why, e.abraded, e.temp_c, e.rh_fraction, e.air_from, "
    "e.logged_at, s.why, s.struck_at, t.words, t.stage, t.reached, m.moisture_fraction, o.defect, "
    "f.file_name "
    "FROM log_entry e JOIN piece p ON p.id = e.piece_id LEFT JOIN log_strike s ON s.entry_id = "
    "e.id LEFT JOIN log_touch t ON t.entry_id = e.id LEFT JOIN log_moisture m ON m.entry_id = e.id "
    "LEFT JOIN log_outcome o ON o.entry_id = e.id LEFT JOIN log_photo f ON f.entry_id = e.id ";

constexpr std::string_view kSelectFindings =
    "SELECT v.entry_id, v.kind, v.by_s, v.moment, v.chance, v.text, v.may_happen, v.to_do, "
    "v.source FROM log_verdict v JOIN log_entry e ON e.id = v.entry_id ";

std::string condition_for(LogOf which) {
  return which == LogOf::kPiece ? "WHERE e.piece_id = ? " : "WHERE e.id = ? ";
}

template <class T, std::size_t kCount>
Result<T> named(const std::array<T, kCount>& values, const std::string& name, const char* what) {
  for (const T value : values) {
    if (name_of(value) == name) {
      return value;
    }
  }
  return fail(ErrorCode::kStore, fmt::format("unknown {} '{}' in the log", what, name));
}

constexpr std::array kKindsInStore = {LogKind::kCoat, LogKind::kStep, LogKind::kSkip};
constexpr std::array kFindings = {LogKind::kTouch, LogKind::kMoisture, LogKind::kOutcome};
constexpr std::array kAirOrigins = {AirOrigin::kReading,
                                    AirOrigin::kLogger,
                                    AirOrigin::kForecast,
                                    AirOrigin::kOutdoors,
                                    AirOrigin::kUsualDay};

/// What was found is in the store a step of that name.
LogKind kind_of(LogKind in_store, const std::string& step) {
  for (const LogKind kind : kFindings) {
    if (in_store == LogKind::kStep && step == name_of(kind)) {
      return kind;
    }
  }
  return in_store;
}

Result<std::optional<LoggedTouch>> touch_of(const Statement& row) {
  const auto words = row.optional_text(22);
  if (!words) {
    return std::nullopt;
  }
  const auto stage = stage_named(row.text(23));
  if (!stage) {
    return fail(ErrorCode::kStore, fmt::format("unknown stage '{}' in the log", row.text(23)));
  }
  return LoggedTouch{*words, *stage, row.integer(24) != 0};
}

/// The columns that stand as they are.
LogEntry texts_of(const Statement& row) {
  LogEntry entry;
  entry.id = row.integer(0);
  entry.piece = row.text(1);
  entry.step = row.text(3);
  entry.grit = row.text(4);
  entry.part = row.text(5);
  entry.face = row.text(6);
  entry.product = row.text(7);
  entry.revision = row.text(8);
  entry.by = row.text(11);
  entry.batch = row.text(12);
  entry.note = row.text(13);
  entry.why = row.text(14);
  entry.abraded = row.integer(15) != 0;
  entry.moisture = row.optional_real(25);
  entry.outcome = row.text(26);
  entry.photo = row.text(27);
  return entry;
}

Result<std::optional<LoggedAir>> air_of(const Statement& row) {
  const auto celsius = row.optional_real(16);
  if (!celsius) {
    return std::nullopt;
  }
  const auto origin = named(kAirOrigins, row.text(18), "origin of air");
  if (!origin) {
    return pass_on(origin.error());
  }
  return LoggedAir{
      Temperature::from_celsius(*celsius), RelativeHumidity::from_fraction(row.real(17)), *origin};
}

Result<std::optional<LogStrike>> strike_of(const Statement& row) {
  const auto why = row.optional_text(20);
  if (!why) {
    return std::nullopt;
  }
  const auto at = time_from_store(row.text(21));
  if (!at) {
    return pass_on(at.error());
  }
  return LogStrike{*why, *at};
}

bool has_what_was_found(const LogEntry& entry) {
  return (entry.kind != LogKind::kTouch || entry.touch) &&
         (entry.kind != LogKind::kMoisture || entry.moisture) &&
         (entry.kind != LogKind::kOutcome || !entry.outcome.empty());
}

Result<LogEntry> entry_of(const Statement& row) {
  LogEntry entry = texts_of(row);
  const auto kind = named(kKindsInStore, row.text(2), "kind");
  if (!kind) {
    return pass_on(kind.error());
  }
  const auto at = time_from_store(row.text(9));
  const auto logged_at = time_from_store(row.text(19));
  for (const auto* each : {&at, &logged_at}) {
    if (!*each) {
      return pass_on(each->error());
    }
  }
  auto air = air_of(row);
  if (!air) {
    return pass_on(air.error());
  }
  auto strike = strike_of(row);
  if (!strike) {
    return pass_on(strike.error());
  }
  auto touch = touch_of(row);
  if (!touch) {
    return pass_on(touch.error());
  }
  entry.kind = kind_of(*kind, entry.step);
  entry.at = *at;
  entry.logged_at = *logged_at;
  if (const auto litres = row.optional_real(10)) {
    entry.amount = Volume::from_litres(*litres);
  }
  entry.air = *air;
  entry.strike = std::move(*strike);
  entry.touch = std::move(*touch);
  if (!has_what_was_found(entry)) {
    return fail(ErrorCode::kStore,
                fmt::format("entry {} of the log does not say what was found", entry.id));
  }
  return entry;
}

Result<LoggedFinding> finding_of(const Statement& row) {
  LoggedFinding finding{row.text(1),
                        std::chrono::seconds(row.integer(2)),
                        std::nullopt,
                        row.optional_real(4),
                        row.text(5),
                        row.text(6),
                        row.text(7),
                        row.text(8)};
  if (const auto moment = row.optional_text(3)) {
    const auto time = time_from_store(*moment);
    if (!time) {
      return pass_on(time.error());
    }
    finding.moment = *time;
  }
  return finding;
}

Result<std::vector<LogEntry>> read_entries(const Database& database, LogOf which, std::int64_t id) {
  auto query = database.prepare(
      fmt::format("{}{}ORDER BY e.at, e.id", kSelectEntries, condition_for(which)));
  if (!query) {
    return pass_on(query.error());
  }
  query->bind(1, id);
  std::vector<LogEntry> entries;
  const auto read = query->each_row([&]() -> Result<void> {
    auto entry = entry_of(*query);
    if (!entry) {
      return pass_on(entry.error());
    }
    entries.push_back(std::move(*entry));
    return {};
  });
  if (!read) {
    return pass_on(read.error());
  }
  return entries;
}

using FindingsByEntry = std::map<std::int64_t, std::vector<LoggedFinding>>;

Result<FindingsByEntry> read_findings(const Database& database, LogOf which, std::int64_t id) {
  auto query = database.prepare(
      fmt::format("{}{}ORDER BY v.entry_id, v.rank", kSelectFindings, condition_for(which)));
  if (!query) {
    return pass_on(query.error());
  }
  query->bind(1, id);
  FindingsByEntry findings;
  const auto read = query->each_row([&]() -> Result<void> {
    auto finding = finding_of(*query);
    if (!finding) {
      return pass_on(finding.error());
    }
    findings[query->integer(0)].push_back(std::move(*finding));
    return {};
  });
  if (!read) {
    return pass_on(read.error());
  }
  return findings;
}

}  // namespace

std::string_view name_of(LogKind kind) {
  switch (kind) {
    case LogKind::kCoat:
      return "coat";
    case LogKind::kStep:
      return "step";
    case LogKind::kTouch:
      return "touch";
    case LogKind::kMoisture:
      return "moisture";
    case LogKind::kOutcome:
      return "outcome";
    case LogKind::kSkip:
      break;
  }
  return "skip";
}

std::string_view kind_in_store(LogKind kind) {
  const bool found = std::find(kFindings.begin(), kFindings.end(), kind) != kFindings.end();
  return name_of(found ? LogKind::kStep : kind);
}

Result<std::vector<LogEntry>> read_log(const Database& database, LogOf which, std::int64_t id) {
  auto entries = read_entries(database, which, id);
  if (!entries) {
    return entries;
  }
  // Read after the entries: a coat's findings are there whenever the coat is.
  auto findings = read_findings(database, which, id);
  if (!findings) {
    return pass_on(findings.error());
  }
  for (LogEntry& entry : *entries) {
    entry.findings = std::move((*findings)[entry.id]);
  }
  return entries;
}

}  // namespace coatwright

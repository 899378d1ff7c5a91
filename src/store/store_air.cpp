// The air record's part of the store.
#include <array>

#include <fmt/format.h>

#include "base/zone.h"
#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

constexpr std::array kStoredOrigins = {
    AirOrigin::kReading, AirOrigin::kLogger, AirOrigin::kForecast, AirOrigin::kOutdoors};

Result<AirOrigin> origin_from_store(const std::string& text) {
  for (const AirOrigin origin : kStoredOrigins) {
    if (name_of(origin) == text) {
      return origin;
    }
  }
  return fail(ErrorCode::kStore, fmt::format("unknown origin of air '{}'", text));
}

/// Reads a row of (at, temp_c, rh_fraction, origin).
Result<AirEntry> entry_of(const Statement& row) {
  const auto at = time_from_store(row.text(0));
  if (!at) {
    return pass_on(at.error());
  }
  const auto origin = origin_from_store(row.text(3));
  if (!origin) {
    return pass_on(origin.error());
  }
  return AirEntry{*at,
                  Temperature::from_celsius(row.real(1)),
                  RelativeHumidity::from_fraction(row.real(2)),
                  *origin};
}

constexpr std::string_view kInsertEntry =
    "INSERT INTO air_entry (source_id, at, temp_c, rh_fraction, origin) VALUES (?, ?, ?, ?, ?)";

/// @return whether it was stored; not, when its time and origin are there already.
Result<bool> insert_entry(Statement& insert,
                          const AirEntry& entry,
                          std::optional<std::int64_t> source) {
  insert.reset();
  const auto step = insert.bind(1, source)
                        .bind(2, std::string_view(show_utc(entry.at)))
                        .bind(3, entry.temperature.celsius())
                        .bind(4, entry.humidity.fraction())
                        .bind(5, name_of(entry.origin))
                        .step();
  if (!step) {
    return pass_on(step.error());
  }
  return *step != Statement::Step::kTaken;
}

// What was only expected gives way to what is measured or newly expected.
constexpr std::string_view kReplaceForecast =
    "UPDATE air_entry SET source_id = ?, temp_c = ?, rh_fraction = ? WHERE at = ? AND origin = ? "
    "AND "
    "source_id IN (SELECT id FROM air_source WHERE kind = 'forecast') RETURNING id";

/// @return whether an older forecast stood there and gave way.
Result<bool> replace_forecast(Statement& update, const AirEntry& entry, std::int64_t source) {
  update.reset();
  const auto step = update.bind(1, std::optional(source))
                        .bind(2, entry.temperature.celsius())
                        .bind(3, entry.humidity.fraction())
                        .bind(4, std::string_view(show_utc(entry.at)))
                        .bind(5, name_of(entry.origin))
                        .step();
  if (!step) {
    return pass_on(step.error());
  }
  const bool replaced = *step == Statement::Step::kRow;
  update.reset();  // a statement on a row would hold the transaction open
  return replaced;
}

Result<AirEntry> reading_at(const Database& database, Time at) {
  auto query = database.prepare(
      "SELECT at, temp_c, rh_fraction, origin FROM air_entry WHERE at = ? AND origin = 'reading'");
  if (!query) {
    return pass_on(query.error());
  }
  if (const auto step = query->bind(1, std::string_view(show_utc(at))).step(); !step) {
    return pass_on(step.error());
  }
  return entry_of(*query);
}

Result<void> delete_reading(const Database& database, Time at) {
  auto change = database.prepare("DELETE FROM air_entry WHERE at = ? AND origin = 'reading'");
  if (!change) {
    return pass_on(change.error());
  }
  if (const auto step = change->bind(1, std::string_view(show_utc(at))).step(); !step) {
    return pass_on(step.error());
  }
  return {};
}

Result<std::optional<AirEntry>> store_reading(const Database& database,
                                              const AirEntry& reading,
                                              bool replace) {
  auto transaction = Transaction::begin(database);
  if (!transaction) {
    return pass_on(transaction.error());
  }
  if (replace) {
    if (const auto done = delete_reading(database, reading.at); !done) {
      return pass_on(done.error());
    }
  }
  auto insert = database.prepare(kInsertEntry);
  if (!insert) {
    return pass_on(insert.error());
  }
  const auto stored = insert_entry(*insert, reading, std::nullopt);
  if (!stored) {
    return pass_on(stored.error());
  }
  if (!*stored) {
    return reading_at(database, reading.at).map([](const AirEntry& entry) {
      return std::optional(entry);
    });
  }
  if (const auto done = transaction->commit(); !done) {
    return pass_on(done.error());
  }
  return std::nullopt;
}

Result<std::int64_t> insert_source(const Database& database,
                                   const AirImport& import,
                                   std::size_t rows) {
  auto insert = database.prepare(
      "INSERT INTO air_source (file_name, place, kind, imported_at, rows) VALUES (?, ?, ?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  const std::string_view place = import.place == AirPlace::kShop ? "shop" : "outdoors";
  const std::string_view kind = import.kind == AirKind::kLogger ? "logger" : "forecast";
  const auto step = insert->bind(1, std::string_view(import.file_name))
                        .bind(2, place)
                        .bind(3, kind)
                        .bind(4, std::string_view(show_utc(import.imported_at)))
                        .bind(5, static_cast<std::int64_t>(rows))
                        .step();
  if (!step) {
    return pass_on(step.error());
  }
  return database.last_row_id();
}

Result<AirImported> store_import(const Database& database,
                                 const AirImport& import,
                                 const std::vector<AirEntry>& entries) {
  auto transaction = Transaction::begin(database);
  if (!transaction) {
    return pass_on(transaction.error());
  }
  const auto source = insert_source(database, import, entries.size());
  if (!source) {
    return pass_on(source.error());
  }
  auto insert = database.prepare(kInsertEntry);
  if (!insert) {
    return pass_on(insert.error());
  }
  auto update = database.prepare(kReplaceForecast);
  if (!update) {
    return pass_on(update.error());
  }
  AirImported result;
  for (const AirEntry& entry : entries) {
    const auto stored = insert_entry(*insert, entry, *source);
    if (!stored) {
      return pass_on(stored.error());
    }
    if (*stored) {
      ++result.stored;
      continue;
    }
    const auto replaced = replace_forecast(*update, entry, *source);
    if (!replaced) {
      return pass_on(replaced.error());
    }
    ++(*replaced ? result.replaced : result.known_already);
  }
  if (const auto done = transaction->commit(); !done) {
    return pass_on(done.error());
  }
  return result;
}

}  // namespace

Result<std::optional<AirEntry>> Store::add_reading(const AirEntry& reading, bool replace) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto result = store_reading(**database, reading, replace);
  if (!result) {
    return in_store(result.error(), state_->path);
  }
  return result;
}

Result<AirImported> Store::add_import(const AirImport& import,
                                      const std::vector<AirEntry>& entries) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto result = store_import(**database, import, entries);
  if (!result) {
    return in_store(result.error(), state_->path);
  }
  return result;
}

Result<std::vector<AirEntry>> Store::air_entries(Time from, Time to) const {
  std::vector<AirEntry> entries;
  if (!state_->database) {
    return entries;
  }
  auto query = state_->database->prepare(
      "SELECT at, temp_c, rh_fraction, origin FROM air_entry WHERE at BETWEEN ? AND ? ORDER BY at");
  if (!query) {
    return in_store(query.error(), state_->path);
  }
  query->bind(1, std::string_view(show_utc(from))).bind(2, std::string_view(show_utc(to)));
  const auto read = query->each_row([&]() -> Result<void> {
    const auto entry = entry_of(*query);
    if (!entry) {
      return pass_on(entry.error());
    }
    entries.push_back(*entry);
    return {};
  });
  if (!read) {
    return in_store(read.error(), state_->path);
  }
  return entries;
}

}  // namespace coatwright

#include "store/log_details.h"

#include <string_view>

namespace coatwright {
namespace {

/// Runs an insert whose first value is the entry's number and whose others `bind` gives it.
template <class Bind>
Result<void> insert_row(const Database& database,
                        std::string_view sql,
                        std::int64_t id,
                        const Bind& bind) {
  auto insert = database.prepare(sql);
  if (!insert) {
    return pass_on(insert.error());
  }
  insert->bind(1, id);
  bind(*insert);
  if (const auto step = insert->step(); !step) {
    return pass_on(step.error());
  }
  return {};
}

Result<void> insert_touch(const Database& database, std::int64_t id, const LoggedTouch& touch) {
  return insert_row(database,
                    "INSERT INTO log_touch (entry_id, words, stage, reached) VALUES (?, ?, ?, ?)",
                    id,
                    [&](Statement& insert) {
                      insert.bind(2, std::string_view(touch.words))
                          .bind(3, name_of(touch.stage))
                          .bind(4, std::int64_t{touch.reached ? 1 : 0});
                    });
}

Result<void> insert_moisture(const Database& database, std::int64_t id, double fraction) {
  return insert_row(database,
                    "INSERT INTO log_moisture (entry_id, moisture_fraction) VALUES (?, ?)",
                    id,
                    [&](Statement& insert) { insert.bind(2, fraction); });
}

Result<void> insert_text(const Database& database,
                         std::string_view sql,
                         std::int64_t id,
                         const std::string& text) {
  return insert_row(
      database, sql, id, [&](Statement& insert) { insert.bind(2, std::string_view(text)); });
}

}  // namespace

Result<void> insert_details(const Database& database, std::int64_t id, const LogEntry& entry) {
  Result<void> done;
  if (entry.touch) {
    done = insert_touch(database, id, *entry.touch);
  }
  if (done && entry.moisture) {
    done = insert_moisture(database, id, *entry.moisture);
  }
  if (done && !entry.outcome.empty()) {
    done = insert_text(
        database, "INSERT INTO log_outcome (entry_id, defect) VALUES (?, ?)", id, entry.outcome);
  }
  if (done && !entry.photo.empty()) {
    done = insert_text(
        database, "INSERT INTO log_photo (entry_id, file_name) VALUES (?, ?)", id, entry.photo);
  }
  return done;
}

}  // namespace coatwright

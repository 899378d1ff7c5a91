// The part of the store that keeps days which are not as usual.
#include <fmt/format.h>

#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

Result<void> write_day(Statement& insert, date::local_days day, const SpecialDay& special) {
  const bool closed = special.open.empty();
  std::optional<std::int64_t> people;
  if (special.people) {
    people = *special.people;
  }
  insert.reset();
  const auto step = insert.bind(1, std::string_view(date_text(day)))
                        .bind(2, closed ? std::nullopt : or_null(day_hours_text(special.open)))
                        .bind(3, people)
                        .step();
  return step ? Result<void>() : pass_on(step.error());
}

Result<void> clear_day(Statement& remove, date::local_days day) {
  remove.reset();
  const auto step = remove.bind(1, std::string_view(date_text(day))).step();
  return step ? Result<void>() : pass_on(step.error());
}

Result<DatedDay> day_of(const Statement& row) {
  const auto day = parse_day_range(row.text(0));
  if (!day) {
    return fail(ErrorCode::kStore, day.error().message);
  }
  DatedDay dated{day->first, {}};
  if (const auto text = row.optional_text(1)) {
    auto hours = parse_day_hours(*text);
    if (!hours) {
      return fail(ErrorCode::kStore,
                  fmt::format("the hours of {}: {}", row.text(0), hours.error().message));
    }
    dated.special.open = std::move(*hours);
  }
  if (const auto people = row.optional_real(2)) {
    dated.special.people = static_cast<int>(*people);
  }
  return dated;
}

}  // namespace

Result<void> write_days(const Database& database, const DayChanges& days) {
  auto insert = database.prepare(
      "INSERT INTO shop_day (day, hours, people) VALUES (?, ?, ?) ON CONFLICT (day) DO UPDATE SET "
      "hours = excluded.hours, people = excluded.people");
  auto remove = database.prepare("DELETE FROM shop_day WHERE day = ?");
  if (!insert || !remove) {
    return pass_on(!insert ? insert.error() : remove.error());
  }
  for (const auto& [day, special] : days) {
    if (const auto done = special ? write_day(*insert, day, *special) : clear_day(*remove, day);
        !done) {
      return pass_on(done.error());
    }
  }
  return {};
}

Result<SpecialDays> Store::special_days() const {
  SpecialDays days;
  if (!state_->database) {
    return days;
  }
  auto query = state_->database->prepare("SELECT day, hours, people FROM shop_day ORDER BY day");
  if (!query) {
    return in_store(query.error(), state_->path);
  }
  const auto read = query->each_row([&]() -> Result<void> {
    auto dated = day_of(*query);
    if (!dated) {
      return pass_on(dated.error());
    }
    days[dated->day] = std::move(dated->special);
    return {};
  });
  if (!read) {
    return in_store(read.error(), state_->path);
  }
  return days;
}

}  // namespace coatwright

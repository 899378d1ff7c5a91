// The cans' part of the store.
#include <utility>

#include <fmt/format.h>

#include "base/zone.h"
#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

Result<std::optional<Time>> optional_time_of(const std::optional<std::string>& text) {
  if (!text) {
    return std::nullopt;
  }
  return time_from_store(*text).map([](Time time) { return std::optional(time); });
}

Result<Can> can_of(const Statement& row) {
  const auto opened = time_from_store(row.text(2));
  if (!opened) {
    return pass_on(opened.error());
  }
  const auto made = optional_time_of(row.optional_text(3));
  const auto emptied = optional_time_of(row.optional_text(6));
  for (const auto* each : {&made, &emptied}) {
    if (!*each) {
      return pass_on(each->error());
    }
  }
  return Can{row.integer(0),
             row.text(1),
             *opened,
             *made,
             row.optional_text(4).value_or(""),
             row.optional_text(5).value_or(""),
             *emptied};
}

Result<std::vector<Can>> read_cans(const Database& database) {
  auto query = database.prepare(
      "SELECT id, product, opened_at, made_at, batch, note, emptied_at FROM can ORDER BY id");
  if (!query) {
    return pass_on(query.error());
  }
  std::vector<Can> cans;
  while (true) {
    const auto step = query->step();
    if (!step) {
      return pass_on(step.error());
    }
    if (*step != Statement::Step::kRow) {
      return cans;
    }
    auto can = can_of(*query);
    if (!can) {
      return pass_on(can.error());
    }
    cans.push_back(std::move(*can));
  }
}

tl::unexpected<Error> no_such_can(std::int64_t number) {
  return fail(
      ErrorCode::kNotFound,
      fmt::format("there is no can {}; `coatwright product cans` shows them with their numbers",
                  number));
}

}  // namespace

Result<std::int64_t> Store::open_can(const Can& can) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto insert = (*database)->prepare(
      "INSERT INTO can (product, opened_at, made_at, batch, note) VALUES (?, ?, ?, ?, ?)");
  if (!insert) {
    return in_store(insert.error(), state_->path);
  }
  const auto step = insert->bind(1, std::string_view(can.product))
                        .bind(2, std::string_view(show_utc(can.opened_at)))
                        .bind(3, optional_text_of(can.made_at))
                        .bind(4, or_null(can.batch))
                        .bind(5, or_null(can.note))
                        .step();
  if (!step) {
    return in_store(step.error(), state_->path);
  }
  return (*database)->last_row_id();
}

Result<std::vector<Can>> Store::cans() const {
  if (!state_->database) {
    return std::vector<Can>();
  }
  auto cans = read_cans(*state_->database);
  if (!cans) {
    return in_store(cans.error(), state_->path);
  }
  std::erase_if(*cans, [](const Can& can) { return can.emptied_at.has_value(); });
  return cans;
}

Result<Can> Store::can(std::int64_t number) const {
  if (!state_->database) {
    return no_such_can(number);
  }
  auto cans = read_cans(*state_->database);
  if (!cans) {
    return in_store(cans.error(), state_->path);
  }
  for (Can& each : *cans) {
    if (each.number == number) {
      return std::move(each);
    }
  }
  return no_such_can(number);
}

Result<void> Store::empty_can(std::int64_t number, Time at) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto transaction = Transaction::begin(**database);
  if (!transaction) {
    return in_store(transaction.error(), state_->path);
  }
  const auto found = can(number);
  if (!found) {
    return pass_on(found.error());
  }
  if (found->emptied_at) {
    return fail(ErrorCode::kUsage, fmt::format("can {} was taken off already", number));
  }
  auto change = (*database)->prepare("UPDATE can SET emptied_at = ? WHERE id = ?");
  if (!change) {
    return in_store(change.error(), state_->path);
  }
  if (const auto step = change->bind(1, std::string_view(show_utc(at))).bind(2, number).step();
      !step) {
    return in_store(step.error(), state_->path);
  }
  const auto done = transaction->commit();
  return done ? done : in_store(done.error(), state_->path);
}

}  // namespace coatwright

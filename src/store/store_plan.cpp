// The kept plans' part of the store.
#include <fmt/format.h>

#include "base/zone.h"
#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

Result<void> put_plan(const Database& database, std::int64_t piece, const KeptPlan& plan) {
  auto erase = database.prepare("DELETE FROM kept_plan WHERE piece_id = ?");
  if (!erase) {
    return pass_on(erase.error());
  }
  if (const auto step = erase->bind(1, piece).step(); !step) {
    return pass_on(step.error());
  }
  auto insert =
      database.prepare("INSERT INTO kept_plan (piece_id, made_at, finish) VALUES (?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  const auto step = insert->bind(1, piece)
                        .bind(2, std::string_view(show_utc(plan.made_at)))
                        .bind(3, optional_text_of(plan.finish))
                        .step();
  return step ? Result<void>() : pass_on(step.error());
}

Result<void> put_steps(const Database& database, std::int64_t piece, const KeptPlan& plan) {
  auto insert = database.prepare(
      "INSERT INTO kept_step (piece_id, position, kind, face, product, product_title, coat, grit, "
      "starts, revision, part) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  std::int64_t position = 0;
  for (const KeptStep& step : plan.steps) {
    insert->reset();
    const auto done = insert->bind(1, piece)
                          .bind(2, ++position)
                          .bind(3, name_of(step.kind))
                          .bind(4, or_null(step.face))
                          .bind(5, or_null(step.product))
                          .bind(6, or_null(step.product_title))
                          .bind(7, std::int64_t{step.coat})
                          .bind(8, or_null(step.grit))
                          .bind(9, std::string_view(show_utc(step.start)))
                          .bind(10, or_null(step.revision))
                          .bind(11, or_null(step.part))
                          .step();
    if (!done) {
      return pass_on(done.error());
    }
  }
  return {};
}

Result<KeptStep> step_of(const Statement& row) {
  const auto kind = step_kind_named(row.text(0));
  if (!kind) {
    return fail(ErrorCode::kStore, fmt::format("unknown kind of step '{}'", row.text(0)));
  }
  const auto start = time_from_store(row.text(6));
  if (!start) {
    return pass_on(start.error());
  }
  return KeptStep{*kind,
                  row.optional_text(1).value_or(""),
                  row.optional_text(2).value_or(""),
                  row.optional_text(3).value_or(""),
                  static_cast<int>(row.integer(4)),
                  row.optional_text(5).value_or(""),
                  *start,
                  row.optional_text(7).value_or(""),
                  "",
                  row.optional_text(8).value_or("")};
}

Result<std::vector<KeptStep>> read_steps(const Database& database, std::int64_t piece) {
  auto query = database.prepare(
      "SELECT kind, face, product, product_title, coat, grit, starts, revision, part FROM "
      "kept_step WHERE piece_id = ? ORDER BY position");
  if (!query) {
    return pass_on(query.error());
  }
  query->bind(1, piece);
  std::vector<KeptStep> steps;
  while (true) {
    const auto row = query->step();
    if (!row) {
      return pass_on(row.error());
    }
    if (*row != Statement::Step::kRow) {
      return steps;
    }
    auto step = step_of(*query);
    if (!step) {
      return pass_on(step.error());
    }
    steps.push_back(std::move(*step));
  }
}

Result<std::optional<KeptPlan>> read_plan(const Database& database, std::int64_t piece) {
  auto query = database.prepare("SELECT made_at, finish FROM kept_plan WHERE piece_id = ?");
  if (!query) {
    return pass_on(query.error());
  }
  const auto row = query->bind(1, piece).step();
  if (!row) {
    return pass_on(row.error());
  }
  if (*row != Statement::Step::kRow) {
    return std::nullopt;
  }
  KeptPlan plan;
  const auto made_at = time_from_store(query->text(0));
  if (!made_at) {
    return pass_on(made_at.error());
  }
  plan.made_at = *made_at;
  if (const auto text = query->optional_text(1)) {
    const auto finish = time_from_store(*text);
    if (!finish) {
      return pass_on(finish.error());
    }
    plan.finish = *finish;
  }
  auto steps = read_steps(database, piece);
  if (!steps) {
    return pass_on(steps.error());
  }
  plan.steps = std::move(*steps);
  return plan;
}

}  // namespace

Result<void> Store::keep_plan(const std::string& piece, const KeptPlan& plan) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto transaction = Transaction::begin(**database);
  if (!transaction) {
    return in_store(transaction.error(), state_->path);
  }
  const auto id = piece_id(**database, piece);
  if (!id) {
    return in_store(id.error(), state_->path);
  }
  if (!*id) {
    return pass_on(this->piece(piece).error());
  }
  if (const auto done = put_plan(**database, **id, plan); !done) {
    return in_store(done.error(), state_->path);
  }
  if (const auto done = put_steps(**database, **id, plan); !done) {
    return in_store(done.error(), state_->path);
  }
  const auto done = transaction->commit();
  return done ? done : in_store(done.error(), state_->path);
}

Result<std::optional<KeptPlan>> Store::kept_plan(const std::string& piece) const {
  if (!state_->database) {
    return std::nullopt;
  }
  const auto id = piece_id(*state_->database, piece);
  if (!id) {
    return in_store(id.error(), state_->path);
  }
  if (!*id) {
    return std::nullopt;
  }
  auto plan = read_plan(*state_->database, **id);
  if (!plan) {
    return in_store(plan.error(), state_->path);
  }
  return plan;
}

}  // namespace coatwright

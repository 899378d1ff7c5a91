// The log's part of the store.
#include <utility>

#include <fmt/format.h>

#include "base/content_hash.h"
#include "base/zone.h"
#include "store/log_details.h"
#include "store/log_rows.h"
#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

constexpr std::string_view kInsertEntry =
    "INSERT INTO log_entry (piece_id, kind, step, grit, part, face, product, revision, at, "
    "amount_l, maker, batch, note, why, abraded, temp_c, rh_fraction, air_from, logged_at) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";

constexpr std::string_view kInsertFinding =
    "INSERT INTO log_verdict (entry_id, rank, kind, by_s, moment, chance, text, may_happen, "
    "to_do, source) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";

void bind_entry(Statement& insert, std::int64_t piece, const LogEntry& entry) {
  std::optional<double> amount;
  if (entry.amount) {
    amount = entry.amount->litres();
  }
  insert.bind(1, piece)
      .bind(2, kind_in_store(entry.kind))
      .bind(3, std::string_view(entry.step))
      .bind(4, or_null(entry.grit))
      .bind(5, or_null(entry.part))
      .bind(6, or_null(entry.face))
      .bind(7, or_null(entry.product))
      .bind(8, or_null(entry.revision))
      .bind(9, std::string_view(show_utc(entry.at)))
      .bind(10, amount)
      .bind(11, or_null(entry.by))
      .bind(12, or_null(entry.batch))
      .bind(13, or_null(entry.note))
      .bind(14, or_null(entry.why))
      .bind(15, std::int64_t{entry.abraded ? 1 : 0})
      .bind(19, std::string_view(show_utc(entry.logged_at)));
}

void bind_air(Statement& insert, const std::optional<LoggedAir>& air) {
  std::optional<double> celsius;
  std::optional<double> fraction;
  std::optional<std::string> origin;
  if (air) {
    celsius = air->temperature.celsius();
    fraction = air->humidity.fraction();
    origin = name_of(air->origin);
  }
  insert.bind(16, celsius).bind(17, fraction).bind(18, origin);
}

/// Writes an entry with its details, but without its findings. @return its number.
Result<std::int64_t> insert_entry(const Database& database,
                                  std::int64_t piece,
                                  const LogEntry& entry) {
  auto insert = database.prepare(kInsertEntry);
  if (!insert) {
    return pass_on(insert.error());
  }
  bind_entry(*insert, piece, entry);
  bind_air(*insert, entry.air);
  if (const auto step = insert->step(); !step) {
    return pass_on(step.error());
  }
  const std::int64_t id = database.last_row_id();
  if (const auto done = insert_details(database, id, entry); !done) {
    return pass_on(done.error());
  }
  return id;
}

Result<void> insert_findings(const Database& database,
                             std::int64_t entry,
                             const std::vector<LoggedFinding>& findings) {
  auto insert = database.prepare(kInsertFinding);
  if (!insert) {
    return pass_on(insert.error());
  }
  std::int64_t rank = 0;
  for (const LoggedFinding& finding : findings) {
    insert->reset();
    const auto step = insert->bind(1, entry)
                          .bind(2, ++rank)
                          .bind(3, std::string_view(finding.kind))
                          .bind(4, std::int64_t{finding.by.count()})
                          .bind(5, optional_text_of(finding.moment))
                          .bind(6, finding.chance)
                          .bind(7, std::string_view(finding.text))
                          .bind(8, std::string_view(finding.may_happen))
                          .bind(9, std::string_view(finding.to_do))
                          .bind(10, std::string_view(finding.source))
                          .step();
    if (!step) {
      return pass_on(step.error());
    }
  }
  return {};
}

/// The text of a revision, or nothing when it is not kept.
Result<std::optional<std::string>> kept_text(const Database& database,
                                             const std::string& product,
                                             const std::string& revision) {
  auto query =
      database.prepare("SELECT text FROM product_revision WHERE product = ? AND revision = ?");
  if (!query) {
    return pass_on(query.error());
  }
  const auto step =
      query->bind(1, std::string_view(product)).bind(2, std::string_view(revision)).step();
  if (!step) {
    return pass_on(step.error());
  }
  return *step == Statement::Step::kRow ? std::optional(query->text(0)) : std::nullopt;
}

Result<void> keep_revision(const Database& database,
                           const std::string& product,
                           const std::string& revision,
                           const std::string& text) {
  const auto kept = kept_text(database, product, revision);
  if (!kept) {
    return pass_on(kept.error());
  }
  if (*kept) {
    if (**kept == text) {
      return {};
    }
    return fail(ErrorCode::kFault,
                fmt::format("two recipes of '{}' have the revision {}; change a comment in the "
                            "file, so that they can be told apart",
                            product,
                            revision));
  }
  auto insert =
      database.prepare("INSERT INTO product_revision (product, revision, text) VALUES (?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  if (const auto step = insert->bind(1, std::string_view(product))
                            .bind(2, std::string_view(revision))
                            .bind(3, std::string_view(text))
                            .step();
      !step) {
    return pass_on(step.error());
  }
  return {};
}

/// The row of the piece that has a name, or had it last.
Result<std::optional<std::int64_t>> piece_id_ever(const Database& database,
                                                  const std::string& name) {
  auto query = database.prepare(
      "SELECT id FROM piece WHERE name = ? ORDER BY retired_at IS NULL DESC, id DESC LIMIT 1");
  if (!query) {
    return pass_on(query.error());
  }
  const auto step = query->bind(1, std::string_view(name)).step();
  if (!step) {
    return pass_on(step.error());
  }
  return *step == Statement::Step::kRow ? std::optional(query->integer(0)) : std::nullopt;
}

tl::unexpected<Error> no_such_entry(std::int64_t id) {
  return fail(ErrorCode::kNotFound,
              fmt::format("there is no entry {} in the log; `coatwright story PIECE` shows the "
                          "entries of a piece with their numbers",
                          id));
}

Result<void> insert_strike(const Database& database,
                           std::int64_t id,
                           const std::string& why,
                           Time at) {
  auto insert =
      database.prepare("INSERT INTO log_strike (entry_id, why, struck_at) VALUES (?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  const auto step = insert->bind(1, id)
                        .bind(2, std::string_view(why))
                        .bind(3, std::string_view(show_utc(at)))
                        .step();
  if (!step) {
    return pass_on(step.error());
  }
  if (*step == Statement::Step::kTaken) {
    return fail(ErrorCode::kUsage,
                fmt::format("entry {} was struck out already; log it again if that was wrong", id));
  }
  return {};
}

}  // namespace

Result<std::int64_t> Store::log_coat(const LogEntry& coat, const std::string& product_text) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto transaction = Transaction::begin(**database);
  if (!transaction) {
    return in_store(transaction.error(), state_->path);
  }
  const auto piece = piece_id(**database, coat.piece);
  if (!piece) {
    return in_store(piece.error(), state_->path);
  }
  if (!*piece) {
    return pass_on(this->piece(coat.piece).error());
  }
  LogEntry entry = coat;
  entry.revision = content_hash(product_text);
  if (const auto kept = keep_revision(**database, entry.product, entry.revision, product_text);
      !kept) {
    return in_store(kept.error(), state_->path);
  }
  const auto id = insert_entry(**database, **piece, entry);
  if (!id) {
    return in_store(id.error(), state_->path);
  }
  if (const auto done = insert_findings(**database, *id, entry.findings); !done) {
    return in_store(done.error(), state_->path);
  }
  if (const auto done = transaction->commit(); !done) {
    return in_store(done.error(), state_->path);
  }
  return *id;
}

Result<std::vector<std::int64_t>> Store::log_steps(const std::vector<LogEntry>& steps) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto transaction = Transaction::begin(**database);
  if (!transaction) {
    return in_store(transaction.error(), state_->path);
  }
  std::vector<std::int64_t> ids;
  for (const LogEntry& entry : steps) {
    const auto piece = piece_id(**database, entry.piece);
    if (!piece) {
      return in_store(piece.error(), state_->path);
    }
    if (!*piece) {
      return pass_on(this->piece(entry.piece).error());
    }
    const auto id = insert_entry(**database, **piece, entry);
    if (!id) {
      return in_store(id.error(), state_->path);
    }
    ids.push_back(*id);
  }
  if (const auto done = transaction->commit(); !done) {
    return in_store(done.error(), state_->path);
  }
  return ids;
}

Result<std::vector<LogEntry>> Store::log(const std::string& piece) const {
  if (!state_->database) {
    return pass_on(this->piece(piece).error());
  }
  const auto id = piece_id_ever(*state_->database, piece);
  if (!id) {
    return in_store(id.error(), state_->path);
  }
  if (!*id) {
    return pass_on(this->piece(piece).error());
  }
  auto entries = read_log(*state_->database, LogOf::kPiece, **id);
  if (!entries) {
    return in_store(entries.error(), state_->path);
  }
  return entries;
}

Result<LogEntry> Store::log_entry(std::int64_t id) const {
  if (!state_->database) {
    return no_such_entry(id);
  }
  auto entries = read_log(*state_->database, LogOf::kEntry, id);
  if (!entries) {
    return in_store(entries.error(), state_->path);
  }
  if (entries->empty()) {
    return no_such_entry(id);
  }
  return std::move(entries->front());
}

Result<void> Store::strike(std::int64_t id, const std::string& why, Time at) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  if (const auto found = log_entry(id); !found) {
    return pass_on(found.error());
  }
  auto done = insert_strike(**database, id, why, at);
  if (!done && done.error().code == ErrorCode::kStore) {
    return in_store(done.error(), state_->path);
  }
  return done;
}

Result<std::string> Store::product_text(const std::string& product,
                                        const std::string& revision) const {
  if (state_->database) {
    auto text = kept_text(*state_->database, product, revision);
    if (!text) {
      return in_store(text.error(), state_->path);
    }
    if (*text) {
      return std::move(**text);
    }
  }
  return fail(ErrorCode::kNotFound,
              fmt::format("no recipe of '{}' with the revision {} is kept", product, revision));
}

}  // namespace coatwright

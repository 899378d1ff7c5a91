// The pieces' part of the store.
#include <array>

#include <fmt/format.h>

#include "base/zone.h"
#include "store/log_rows.h"
#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

Result<std::optional<Time>> optional_time_from_store(const std::optional<std::string>& text) {
  if (!text) {
    return std::nullopt;
  }
  return time_from_store(*text).map([](Time time) { return std::optional(time); });
}

Result<StoredPiece> piece_of(const Statement& row) {
  const auto faces = faces_from_store(row.text(4));
  if (!faces) {
    return pass_on(faces.error());
  }
  const auto due = optional_time_from_store(row.optional_text(5));
  const auto earliest = optional_time_from_store(row.optional_text(6));
  for (const auto* each : {&due, &earliest}) {
    if (!*each) {
      return pass_on(each->error());
    }
  }
  const auto created_at = time_from_store(row.text(8));
  if (!created_at) {
    return pass_on(created_at.error());
  }
  return StoredPiece{row.text(0),
                     row.text(1),
                     row.text(2),
                     Area::from_square_metres(row.real(3)),
                     *faces,
                     *due,
                     *earliest,
                     row.real(7),
                     *created_at,
                     row.text(9),
                     row.optional_text(10)};
}

tl::unexpected<Error> no_such_piece(const std::string& name,
                                    const std::vector<StoredPiece>& pieces) {
  std::string known;
  for (const StoredPiece& piece : pieces) {
    known += (known.empty() ? "" : ", ") + piece.name;
  }
  return fail(ErrorCode::kNotFound,
              fmt::format("there is no piece '{}'; {}",
                          name,
                          known.empty() ? "no piece is stored, add one with `piece add`"
                                        : "stored are: " + known));
}

}  // namespace

Result<std::optional<std::int64_t>> piece_id(const Database& database, const std::string& name) {
  auto query = database.prepare("SELECT id FROM piece WHERE name = ? AND retired_at IS NULL");
  if (!query) {
    return pass_on(query.error());
  }
  const auto step = query->bind(1, std::string_view(name)).step();
  if (!step) {
    return pass_on(step.error());
  }
  return *step == Statement::Step::kRow ? std::optional(query->integer(0)) : std::nullopt;
}

namespace {

/// @return the row's id. Errors: also kUsage when the name is taken.
Result<std::int64_t> insert_piece(const Database& database, const StoredPiece& piece) {
  auto insert = database.prepare(
      "INSERT INTO piece (name, species, schedule, area_m2, faces, due, earliest, weight, "
      "created_at, surface, over) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  const auto step = insert->bind(1, std::string_view(piece.name))
                        .bind(2, std::string_view(piece.species))
                        .bind(3, std::string_view(piece.schedule))
                        .bind(4, piece.area.square_metres())
                        .bind(5, text_of(piece.faces))
                        .bind(6, optional_text_of(piece.due))
                        .bind(7, optional_text_of(piece.earliest))
                        .bind(8, piece.weight)
                        .bind(9, std::string_view(show_utc(piece.created_at)))
                        .bind(10, std::string_view(piece.surface))
                        .bind(11, piece.over)
                        .step();
  if (!step) {
    return pass_on(step.error());
  }
  if (*step == Statement::Step::kTaken) {
    return fail(ErrorCode::kUsage,
                fmt::format("a piece '{}' is there already: choose another name, or take that one "
                            "out with `piece remove`",
                            piece.name));
  }
  return database.last_row_id();
}

}  // namespace

Result<void> Store::add_piece(const StoredPiece& piece) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto transaction = Transaction::begin(**database);
  if (!transaction) {
    return in_store(transaction.error(), state_->path);
  }
  const auto id = insert_piece(**database, piece);
  if (!id) {
    return id.error().code == ErrorCode::kStore ? in_store(id.error(), state_->path)
                                                : pass_on(id.error());
  }
  if (const auto done = write_parts(**database, *id, piece); !done) {
    return in_store(done.error(), state_->path);
  }
  if (const auto done = transaction->commit(); !done) {
    return in_store(done.error(), state_->path);
  }
  return {};
}

namespace {

/// Reads the pieces of which a condition holds, in the order they were added, with their rows.
Result<std::vector<std::pair<std::int64_t, StoredPiece>>> read_pieces(const Database& database,
                                                                      std::string_view condition) {
  auto query = database.prepare(
      fmt::format("SELECT name, species, schedule, area_m2, faces, due, earliest, weight, "
                  "created_at, surface, over, id FROM piece WHERE {} ORDER BY id",
                  condition));
  if (!query) {
    return pass_on(query.error());
  }
  std::vector<std::pair<std::int64_t, StoredPiece>> pieces;
  const auto read = query->each_row([&]() -> Result<void> {
    auto piece = piece_of(*query);
    if (!piece) {
      return pass_on(piece.error());
    }
    const std::int64_t id = query->integer(11);
    if (const auto done = read_parts(database, id, *piece); !done) {
      return pass_on(done.error());
    }
    pieces.emplace_back(id, std::move(*piece));
    return {};
  });
  if (!read) {
    return pass_on(read.error());
  }
  return pieces;
}

}  // namespace

Result<std::vector<StoredPiece>> Store::pieces() const {
  std::vector<StoredPiece> pieces;
  if (!state_->database) {
    return pieces;
  }
  auto read = read_pieces(*state_->database, "retired_at IS NULL");
  if (!read) {
    return in_store(read.error(), state_->path);
  }
  for (auto& [id, piece] : *read) {
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

Result<std::vector<TouchedPiece>> Store::touched_pieces() const {
  std::vector<TouchedPiece> touched;
  if (!state_->database) {
    return touched;
  }
  auto read =
      read_pieces(*state_->database, "id IN (SELECT piece_id FROM log_entry WHERE step = 'touch')");
  if (!read) {
    return in_store(read.error(), state_->path);
  }
  for (auto& [id, piece] : *read) {
    auto log = read_log(*state_->database, LogOf::kPiece, id);
    if (!log) {
      return in_store(log.error(), state_->path);
    }
    touched.push_back({std::move(piece), std::move(*log)});
  }
  return touched;
}

Result<StoredPiece> Store::piece(const std::string& name) const {
  const auto all = pieces();
  if (!all) {
    return pass_on(all.error());
  }
  for (const StoredPiece& piece : *all) {
    if (piece.name == name) {
      return piece;
    }
  }
  return no_such_piece(name, *all);
}

Result<void> Store::retire_piece(const std::string& name, Time at) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  if (const auto found = piece(name); !found) {
    return pass_on(found.error());
  }
  auto change =
      (*database)->prepare("UPDATE piece SET retired_at = ? WHERE name = ? AND retired_at IS NULL");
  if (!change) {
    return in_store(change.error(), state_->path);
  }
  if (const auto step =
          change->bind(1, std::string_view(show_utc(at))).bind(2, std::string_view(name)).step();
      !step) {
    return in_store(step.error(), state_->path);
  }
  return {};
}

}  // namespace coatwright

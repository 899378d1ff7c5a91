// The part of the store that keeps what pieces are made of and how they are put together.

#include <fmt/format.h>

#include "store/store.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

constexpr std::string_view kInsertUnit =
    "INSERT INTO piece_unit (piece_id, position, name, area_m2, faces, rack_places, schedule, "
    "parts) VALUES (?, ?, ?, ?, ?, ?, ?, ?)";

constexpr std::string_view kInsertWork =
    "INSERT INTO piece_work (piece_id, position, kind, name, before_finish, minutes, people, "
    "at_bench, glue, needs) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";

Result<void> done_by(Statement& statement) {
  const auto step = statement.step();
  return step ? Result<void>() : pass_on(step.error());
}

Result<void> write_unit(const Database& database,
                        std::int64_t piece,
                        std::int64_t position,
                        const StoredUnit& unit) {
  auto insert = database.prepare(kInsertUnit);
  if (!insert) {
    return pass_on(insert.error());
  }
  insert->bind(1, piece)
      .bind(2, position)
      .bind(3, std::string_view(unit.name))
      .bind(4, unit.area.square_metres())
      .bind(5, text_of(unit.faces))
      .bind(6, std::int64_t{unit.rack_places})
      .bind(7, or_null(unit.schedule))
      .bind(8, std::string_view(unit.parts));
  return done_by(*insert);
}

Result<void> write_units_of_work(const Database& database,
                                 std::int64_t piece,
                                 std::int64_t position,
                                 const std::vector<int>& units) {
  auto insert =
      database.prepare("INSERT INTO piece_work_unit (piece_id, work, unit) VALUES (?, ?, ?)");
  if (!insert) {
    return pass_on(insert.error());
  }
  for (const int unit : units) {
    insert->reset();
    insert->bind(1, piece).bind(2, position).bind(3, std::int64_t{unit});
    if (const auto done = done_by(*insert); !done) {
      return pass_on(done.error());
    }
  }
  return {};
}

Result<void> write_work(const Database& database,
                        std::int64_t piece,
                        std::int64_t position,
                        const StoredWork& work) {
  auto insert = database.prepare(kInsertWork);
  if (!insert) {
    return pass_on(insert.error());
  }
  const std::string needs(work.before_finish ? "" : name_of(work.needs));
  insert->bind(1, piece)
      .bind(2, position)
      .bind(3, std::string_view(work.kind))
      .bind(4, std::string_view(work.name))
      .bind(5, std::int64_t{work.before_finish ? 1 : 0})
      .bind(6, work.work.minutes())
      .bind(7, std::int64_t{work.people})
      .bind(8, std::int64_t{work.at_bench ? 1 : 0})
      .bind(9, or_null(work.glue))
      .bind(10, or_null(needs));
  if (const auto done = done_by(*insert); !done) {
    return pass_on(done.error());
  }
  return write_units_of_work(database, piece, position, work.units);
}

Result<StoredUnit> unit_of(const Statement& row) {
  const auto faces = faces_from_store(row.text(2));
  if (!faces) {
    return pass_on(faces.error());
  }
  return StoredUnit{row.text(0),
                    Area::from_square_metres(row.real(1)),
                    *faces,
                    static_cast<int>(row.integer(3)),
                    row.text(4),
                    row.text(5)};
}

/// One work, without its units.
Result<StoredWork> work_of(const Statement& row) {
  StoredWork work;
  work.kind = row.text(1);
  work.name = row.text(2);
  work.before_finish = row.integer(3) != 0;
  work.work = Hours::from_minutes(row.real(4));
  work.people = static_cast<int>(row.integer(5));
  work.at_bench = row.integer(6) != 0;
  work.glue = row.text(7);
  if (const auto needs = row.optional_text(8)) {
    const auto stage = stage_named(*needs);
    if (!stage) {
      return fail(ErrorCode::kStore, fmt::format("unknown stage '{}' of a piece's work", *needs));
    }
    work.needs = *stage;
  }
  return work;
}

Result<void> read_units(const Database& database, std::int64_t id, StoredPiece& piece) {
  auto query = database.prepare(
      "SELECT name, area_m2, faces, rack_places, schedule, parts FROM piece_unit WHERE piece_id = "
      "? ORDER BY position");
  if (!query) {
    return pass_on(query.error());
  }
  query->bind(1, id);
  return query->each_row([&]() -> Result<void> {
    auto unit = unit_of(*query);
    if (!unit) {
      return pass_on(unit.error());
    }
    piece.units.push_back(std::move(*unit));
    return {};
  });
}

/// A work has a row for each of its units.
Result<void> read_work(const Database& database, std::int64_t id, StoredPiece& piece) {
  auto query = database.prepare(
      "SELECT w.position, w.kind, w.name, w.before_finish, w.minutes, w.people, w.at_bench, "
      "w.glue, w.needs, u.unit FROM piece_work w JOIN piece_work_unit u ON u.piece_id = w.piece_id "
      "AND u.work = w.position WHERE w.piece_id = ? ORDER BY w.position, u.unit");
  if (!query) {
    return pass_on(query.error());
  }
  query->bind(1, id);
  return query->each_row([&]() -> Result<void> {
    if (query->integer(0) == static_cast<std::int64_t>(piece.work.size())) {
      auto work = work_of(*query);
      if (!work) {
        return pass_on(work.error());
      }
      piece.work.push_back(std::move(*work));
    }
    piece.work.back().units.push_back(static_cast<int>(query->integer(9)));
    return {};
  });
}

}  // namespace

std::string_view text_of(PieceFaces faces) {
  switch (faces) {
    case PieceFaces::kOne:
      return "one";
    case PieceFaces::kTwo:
      return "two";
    case PieceFaces::kOnPoints:
      break;
  }
  return "points";
}

Result<PieceFaces> faces_from_store(const std::string& text) {
  for (const PieceFaces faces : {PieceFaces::kOne, PieceFaces::kTwo, PieceFaces::kOnPoints}) {
    if (text_of(faces) == text) {
      return faces;
    }
  }
  return fail(ErrorCode::kStore, fmt::format("unknown faces of a piece '{}'", text));
}

Result<void> write_parts(const Database& database, std::int64_t piece, const StoredPiece& parts) {
  std::int64_t position = 0;
  for (const StoredUnit& unit : parts.units) {
    if (const auto done = write_unit(database, piece, position++, unit); !done) {
      return pass_on(done.error());
    }
  }
  position = 0;
  for (const StoredWork& work : parts.work) {
    if (const auto done = write_work(database, piece, position++, work); !done) {
      return pass_on(done.error());
    }
  }
  return {};
}

Result<void> read_parts(const Database& database, std::int64_t id, StoredPiece& piece) {
  if (const auto done = read_units(database, id, piece); !done) {
    return pass_on(done.error());
  }
  return read_work(database, id, piece);
}

}  // namespace coatwright

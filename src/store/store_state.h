#pragma once

#include <filesystem>
#include <optional>

#include "store/database.h"
#include "store/store.h"

/// Inside of the store; only its own .cpp files include this.
namespace coatwright {

struct Store::State {
  std::filesystem::path path;
  std::optional<Database> database;  ///< None: there is no file yet, and it is only read.

  /// Errors: kFault when the store was opened for reading and there is none.
  [[nodiscard]] Result<const Database*> to_write() const;
};

/// Hands a failure on with the store's file. A free function, because every member ends so.
[[nodiscard]] tl::unexpected<Error> in_store(Error error, const std::filesystem::path& path);

/// The row of the piece that has a name now, or nothing.
[[nodiscard]] Result<std::optional<std::int64_t>> piece_id(const Database& database,
                                                           const std::string& name);

/// Writes days that are not as usual, and takes away those that are again.
[[nodiscard]] Result<void> write_days(const Database& database, const DayChanges& days);

/// Writes a piece's units and its work.
[[nodiscard]] Result<void> write_parts(const Database& database,
                                       std::int64_t piece,
                                       const StoredPiece& parts);
/// Reads them into the piece.
[[nodiscard]] Result<void> read_parts(const Database& database,
                                      std::int64_t id,
                                      StoredPiece& piece);

/// How the store writes faces. @return "one", "two" or "points".
[[nodiscard]] std::string_view text_of(PieceFaces faces);
/// Errors: kStore for another text.
[[nodiscard]] Result<PieceFaces> faces_from_store(const std::string& text);

/// Empty text is kept as NULL.
[[nodiscard]] std::optional<std::string> or_null(const std::string& text);

/// A stored time. Errors: kStore when the text is none.
[[nodiscard]] Result<Time> time_from_store(const std::string& text);
[[nodiscard]] std::optional<std::string> optional_text_of(const std::optional<Time>& time);

}  // namespace coatwright

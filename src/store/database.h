#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

struct sqlite3;
struct sqlite3_stmt;

/// A thin cover over SQLite: handles that close themselves, and failures as Error (kStore).
namespace coatwright {

/// One SQL statement with its values. Must not outlive its Database.
class Statement {
 public:
  enum class Step {
    kRow,    ///< A row is there to be read.
    kDone,   ///< No more rows; a change has been made.
    kTaken,  ///< Nothing was changed: a row with the same unique values is there.
  };

  /// Sets the value of a "?"; numbered from 1. A failure is told by the next step().
  Statement& bind(int index, std::string_view text);
  Statement& bind(int index, double value);
  Statement& bind(int index, std::int64_t value);
  /// Nothing binds NULL.
  Statement& bind(int index, const std::optional<std::string>& text);
  Statement& bind(int index, std::optional<std::int64_t> value);
  Statement& bind(int index, std::optional<double> value);

  /// Errors: kStore for everything but a breach of uniqueness, which is known by its code.
  [[nodiscard]] Result<Step> step();
  /// Reads all rows in turn. @param read takes what it wants of the row at hand, and returns a
  /// Result<void>. Errors: those of step() and of `read`, which end it.
  template <class Read>
  [[nodiscard]] Result<void> each_row(Read read) {
    while (true) {
      const auto stepped = step();
      if (!stepped) {
        return pass_on(stepped.error());
      }
      if (*stepped != Step::kRow) {
        return {};
      }
      if (Result<void> done = read(); !done) {
        return done;
      }
    }
  }
  /// Makes the statement ready to be stepped again; its values stay.
  void reset();

  /// Values of the row, by column from 0.
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::optional<std::string> optional_text(int column) const;
  [[nodiscard]] double real(int column) const;
  [[nodiscard]] std::optional<double> optional_real(int column) const;
  [[nodiscard]] std::int64_t integer(int column) const;

 private:
  friend class Database;
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  explicit Statement(sqlite3_stmt* statement) : handle_(statement) {}
  void note(int code);

  std::unique_ptr<sqlite3_stmt, Finalize> handle_;
  int failed_bind_ = 0;
};

/// An open SQLite file.
class Database {
 public:
  enum class Access { kExisting, kCreate };

  /// Opens a file with a busy time-out, foreign keys on and full synchronisation; does not look at
  /// what is in it. Errors: kStore.
  [[nodiscard]] static Result<Database> open(const std::filesystem::path& path, Access access);

  /// Sets the file to write-ahead logging, which stays with the file. Other connections may do so
  /// at the same moment. Not inside a transaction. Errors: kStore.
  [[nodiscard]] Result<void> use_write_ahead_log() const;
  /// Runs statements that give no rows. Errors: kStore.
  [[nodiscard]] Result<void> run(const std::string& sql) const;
  [[nodiscard]] Result<Statement> prepare(std::string_view sql) const;
  /// The first column of the first row of a query that gives one. Errors: kStore.
  [[nodiscard]] Result<std::int64_t> integer_of(std::string_view sql) const;
  [[nodiscard]] std::int64_t last_row_id() const;
  /// Writes a whole and consistent copy. Errors: kStore.
  [[nodiscard]] Result<void> copy_to(const std::filesystem::path& path) const;

 private:
  struct Close {
    void operator()(sqlite3* database) const;
  };
  explicit Database(sqlite3* database) : handle_(database) {}

  std::unique_ptr<sqlite3, Close> handle_;
};

/// All or nothing: what is not committed is undone at the end of the scope.
class Transaction {
 public:
  enum class Lock { kRead, kWrite };

  /// What is read inside cannot be changed under it: to write, it waits for other writers; to read,
  /// it sees the file as it was at its first question. Errors: kStore.
  [[nodiscard]] static Result<Transaction> begin(const Database& database,
                                                 Lock lock = Lock::kWrite);
  Transaction(Transaction&& other) noexcept;
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

  [[nodiscard]] Result<void> commit();

 private:
  explicit Transaction(const Database& database) : database_(&database) {}
  const Database* database_;
};

}  // namespace coatwright

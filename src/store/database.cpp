#include "store/database.h"

#include <chrono>
#include <thread>
#include <utility>

#include <fmt/format.h>
#include <sqlite3.h>

namespace coatwright {
namespace {

constexpr int kBusyMilliseconds = 10'000;

/// What the user can do about a failure; empty where there is nothing better than SQLite's words.
std::string_view remedy_for(int code) {
  switch (code & 0xff) {  // the primary code is the low byte of the extended one
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return ": another program is using it; try again when that has ended";
    case SQLITE_NOTADB:
      return ": it is not a coatwright store; name another file with --store";
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
      return ": look at the rights of the file and its folder, or name another file with --store";
    case SQLITE_FULL:
      return ": the disk is full";
    case SQLITE_CORRUPT:
      return ": the file is damaged; restore it from a backup";
    default:
      return "";
  }
}

tl::unexpected<Error> failure(sqlite3* database, int code) {
  const char* text = database != nullptr ? sqlite3_errmsg(database) : sqlite3_errstr(code);
  return fail(ErrorCode::kStore, fmt::format("{}{}", text, remedy_for(code)));
}

struct FinishBackup {
  void operator()(sqlite3_backup* backup) const { sqlite3_backup_finish(backup); }
};

}  // namespace

void Statement::Finalize::operator()(sqlite3_stmt* statement) const {
  sqlite3_finalize(statement);
}

void Statement::note(int code) {
  if (code != SQLITE_OK && failed_bind_ == SQLITE_OK) {
    failed_bind_ = code;
  }
}

Statement& Statement::bind(int index, std::string_view text) {
  note(sqlite3_bind_text(
      handle_.get(), index, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT));
  return *this;
}

Statement& Statement::bind(int index, double value) {
  note(sqlite3_bind_double(handle_.get(), index, value));
  return *this;
}

Statement& Statement::bind(int index, std::int64_t value) {
  note(sqlite3_bind_int64(handle_.get(), index, value));
  return *this;
}

Statement& Statement::bind(int index, const std::optional<std::string>& text) {
  if (text) {
    return bind(index, std::string_view(*text));
  }
  note(sqlite3_bind_null(handle_.get(), index));
  return *this;
}

Statement& Statement::bind(int index, std::optional<std::int64_t> value) {
  if (value) {
    return bind(index, *value);
  }
  note(sqlite3_bind_null(handle_.get(), index));
  return *this;
}

Statement& Statement::bind(int index, std::optional<double> value) {
  if (value) {
    return bind(index, *value);
  }
  note(sqlite3_bind_null(handle_.get(), index));
  return *this;
}

Result<Statement::Step> Statement::step() {
  sqlite3* database = sqlite3_db_handle(handle_.get());
  if (failed_bind_ != SQLITE_OK) {
    return failure(database, failed_bind_);
  }
  const int code = sqlite3_step(handle_.get());
  switch (code) {
    case SQLITE_ROW:
      return Step::kRow;
    case SQLITE_DONE:
      return Step::kDone;
    case SQLITE_CONSTRAINT_UNIQUE:
    case SQLITE_CONSTRAINT_PRIMARYKEY:
      sqlite3_reset(handle_.get());
      return Step::kTaken;
    default: {
      auto failed = failure(database, code);
      sqlite3_reset(handle_.get());
      return failed;
    }
  }
}

void Statement::reset() {
  sqlite3_reset(handle_.get());
}

std::string Statement::text(int column) const {
  const auto* bytes = sqlite3_column_text(handle_.get(), column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_.get(), column));
  return bytes == nullptr ? std::string() : std::string(reinterpret_cast<const char*>(bytes), size);
}

std::optional<std::string> Statement::optional_text(int column) const {
  if (sqlite3_column_type(handle_.get(), column) == SQLITE_NULL) {
    return std::nullopt;
  }
  return text(column);
}

double Statement::real(int column) const {
  return sqlite3_column_double(handle_.get(), column);
}

std::optional<double> Statement::optional_real(int column) const {
  if (sqlite3_column_type(handle_.get(), column) == SQLITE_NULL) {
    return std::nullopt;
  }
  return real(column);
}

std::int64_t Statement::integer(int column) const {
  return sqlite3_column_int64(handle_.get(), column);
}

void Database::Close::operator()(sqlite3* database) const {
  sqlite3_close_v2(database);
}

Result<Database> Database::open(const std::filesystem::path& path, Access access) {
  const int create = access == Access::kCreate ? SQLITE_OPEN_CREATE : 0;
  sqlite3* handle = nullptr;
  // A file without the right to write is opened for reading by SQLite itself.
  const int code = sqlite3_open_v2(
      path.c_str(), &handle, SQLITE_OPEN_READWRITE | create | SQLITE_OPEN_EXRESCODE, nullptr);
  Database database(handle);
  if (code != SQLITE_OK) {
    return failure(handle, code);
  }
  sqlite3_busy_timeout(handle, kBusyMilliseconds);
  if (const auto done = database.run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
      !done) {
    return pass_on(done.error());
  }
  return database;
}

Result<void> Database::run(const std::string& sql) const {
  const int code = sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) {
    return failure(handle_.get(), code);
  }
  return {};
}

Result<void> Database::use_write_ahead_log() const {
  constexpr std::chrono::milliseconds kPause{5};
  const auto give_up =
      std::chrono::steady_clock::now() + std::chrono::milliseconds(kBusyMilliseconds);
  // SQLite calls no busy handler where a read lock would have to grow into the exclusive one that
  // the change needs, so waiting is done here.
  for (;;) {
    const int code =
        sqlite3_exec(handle_.get(), "PRAGMA journal_mode = WAL", nullptr, nullptr, nullptr);
    if (code == SQLITE_OK) {
      return {};
    }
    if ((code & 0xff) != SQLITE_BUSY || std::chrono::steady_clock::now() > give_up) {
      return failure(handle_.get(), code);
    }
    std::this_thread::sleep_for(kPause);
  }
}

Result<Statement> Database::prepare(std::string_view sql) const {
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v2(
      handle_.get(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
  if (code != SQLITE_OK) {
    return failure(handle_.get(), code);
  }
  return Statement(statement);
}

Result<std::int64_t> Database::integer_of(std::string_view sql) const {
  auto statement = prepare(sql);
  if (!statement) {
    return pass_on(statement.error());
  }
  const auto step = statement->step();
  if (!step) {
    return pass_on(step.error());
  }
  return statement->integer(0);
}

std::int64_t Database::last_row_id() const {
  return sqlite3_last_insert_rowid(handle_.get());
}

Result<void> Database::copy_to(const std::filesystem::path& path) const {
  auto target = open(path, Access::kCreate);
  if (!target) {
    return pass_on(target.error(), path.string());
  }
  sqlite3* into = target->handle_.get();
  std::unique_ptr<sqlite3_backup, FinishBackup> backup(
      sqlite3_backup_init(into, "main", handle_.get(), "main"));
  constexpr int kAllPages = -1;
  const int code =
      backup ? sqlite3_backup_step(backup.get(), kAllPages) : sqlite3_extended_errcode(into);
  if (code != SQLITE_DONE) {
    return pass_on(failure(nullptr, code).value(), path.string());
  }
  return {};
}

Result<Transaction> Transaction::begin(const Database& database, Lock lock) {
  const auto* const sql = lock == Lock::kWrite ? "BEGIN IMMEDIATE" : "BEGIN";
  if (const auto begun = database.run(sql); !begun) {
    return pass_on(begun.error());
  }
  return Transaction(database);
}

Transaction::Transaction(Transaction&& other) noexcept
    : database_(std::exchange(other.database_, nullptr)) {}

Transaction::~Transaction() {
  if (database_ != nullptr) {
    // A failed rollback has nowhere to go: SQLite then undoes the change when the file is next
    // opened.
    static_cast<void>(database_->run("ROLLBACK"));
  }
}

Result<void> Transaction::commit() {
  auto done = database_->run("COMMIT");
  if (done) {
    database_ = nullptr;
  }
  return done;
}

}  // namespace coatwright

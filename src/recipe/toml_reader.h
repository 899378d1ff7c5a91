#pragma once

#include <cstddef>
#include <initializer_list>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <toml++/toml.h>

#include "base/result.h"

/// A checked reader around toml++, for the readers of this room only: it pulls toml++ in, so no
/// other header includes it.
///
/// A getter that meets something wrong notes it in the file and returns a stand-in that is allowed,
/// so that a reader reads its keys one after the other and asks once, at the end, whether the file
/// was in order. The first thing wrong is what is reported.
namespace coatwright {

/// The allowed range of a number.
struct NumberRange {
  double low = 0;
  double high = 0;
  bool above_low = false;  ///< Then `low` itself is not allowed.

  [[nodiscard]] bool holds(double value) const;
  /// "0 to 100", "above 0, up to 5000".
  [[nodiscard]] std::string text() const;
};

/// Where in a file something stands.
struct Place {
  std::string label;  ///< The file.
  std::int64_t line = 1;
  std::string path;  ///< "stage[2].low_hours"; tables in a list are counted from 1.

  /// @return a kInputFile error that names file, line and key.
  [[nodiscard]] Error error(std::string message) const;
};

class TomlTable;

/// One parsed file.
class TomlFile {
 public:
  /// @param label the file's name as errors show it.
  /// Errors: kInputFile with the line when the text is not TOML, or when its `format` is not the
  /// number 1.
  [[nodiscard]] static Result<TomlFile> parse(std::string_view text, std::string label);

  /// The file's topmost table; `format` counts as read.
  [[nodiscard]] TomlTable root() const;
  /// The first thing that was found wrong.
  [[nodiscard]] const std::optional<Error>& error() const { return state_->error; }

 private:
  friend class TomlTable;
  struct State {
    std::string label;
    toml::table root;
    std::optional<Error> error;
  };
  std::unique_ptr<State> state_;
};

/// One table of a file; the file must outlive it. Keys that were never asked for are unknown keys.
class TomlTable {
 public:
  /// Whether the key is there. Does not count as asking for it.
  [[nodiscard]] bool has(std::string_view key) const { return table_->contains(key); }
  /// Whether nothing has been found wrong in the whole file so far.
  [[nodiscard]] bool ok() const { return !file_->error; }

  /// A text that is not empty.
  [[nodiscard]] std::string text(std::string_view key);
  /// A text that may be absent, but not empty. @return `fallback` when absent.
  [[nodiscard]] std::string text_or(std::string_view key, std::string fallback = "");
  [[nodiscard]] double number(std::string_view key, const NumberRange& range);
  [[nodiscard]] std::optional<double> optional_number(std::string_view key,
                                                      const NumberRange& range);
  [[nodiscard]] double number_or(std::string_view key, double fallback, const NumberRange& range);
  /// A whole number in a range, such as a count.
  [[nodiscard]] int count_or(std::string_view key, int fallback, const NumberRange& range);
  [[nodiscard]] bool flag(std::string_view key);

  /// A list of texts, none empty. @param required then at least one.
  [[nodiscard]] std::vector<std::string> texts(std::string_view key, bool required);
  /// One of the allowed names. @return it; `allowed.front()` after an error.
  [[nodiscard]] std::string_view name(std::string_view key,
                                      const std::vector<std::string_view>& allowed);
  /// A list of at least one of the allowed names, each at most once.
  [[nodiscard]] std::vector<std::string_view> names(std::string_view key,
                                                    const std::vector<std::string_view>& allowed);

  /// A table that must be there.
  [[nodiscard]] TomlTable table(std::string_view key);
  [[nodiscard]] std::optional<TomlTable> optional_table(std::string_view key);
  /// The tables written as [[key]]. @param required then at least one.
  [[nodiscard]] std::vector<TomlTable> tables(std::string_view key, bool required);

  /// Notes that a key's value, which was read, is not allowed.
  /// @param allowed what would be.
  void wrong(std::string_view key, std::string_view allowed);
  /// Notes that the table as a whole is not allowed.
  void wrong(std::string message);
  /// Hands in an error that was made elsewhere.
  void wrong(Error error);
  /// Notes the first key that was never asked for.
  void finish();

  [[nodiscard]] Place place() const;
  [[nodiscard]] Place place(std::string_view key) const;

 private:
  friend class TomlFile;
  TomlTable(TomlFile::State* file, const toml::table* table, std::string path)
      : file_(file), table_(table), path_(std::move(path)) {}

  const toml::node* find(std::string_view key);
  const toml::node* require(std::string_view key, std::string_view allowed);
  std::optional<double> checked_number(std::string_view key,
                                       const toml::node* node,
                                       const NumberRange& range);
  std::string checked_text(const toml::node& node, std::string_view key);
  std::string_view checked_name(const toml::node& node,
                                std::string_view key,
                                const std::vector<std::string_view>& allowed);
  const toml::array* checked_list(std::string_view key, bool required, std::string_view allowed);
  std::optional<TomlTable> checked_table(std::string_view key, const toml::node* node);
  void note(const Place& where, std::string message);

  TomlFile::State* file_;
  const toml::table* table_;
  std::string path_;
  std::set<std::string, std::less<>> asked_;
};

/// The names that stand for the values of an enum, in the order in which messages list them.
template <class E>
using NamedValues = std::vector<std::pair<std::string_view, E>>;

/// @return the values with what name_of() calls each.
template <class E>
[[nodiscard]] NamedValues<E> named(std::initializer_list<E> values) {
  NamedValues<E> names;
  for (const E value : values) {
    names.emplace_back(name_of(value), value);
  }
  return names;
}

/// @return the names alone.
template <class E>
[[nodiscard]] std::vector<std::string_view> names_in(const NamedValues<E>& values) {
  std::vector<std::string_view> names;
  for (const auto& [name, value] : values) {
    names.push_back(name);
  }
  return names;
}

template <class E>
[[nodiscard]] E value_named(const NamedValues<E>& values, std::string_view name) {
  for (const auto& [known, value] : values) {
    if (known == name) {
      return value;
    }
  }
  return values.front().second;
}

/// Reads a key whose value names a value of an enum.
template <class E>
[[nodiscard]] E choice(TomlTable& table, std::string_view key, const NamedValues<E>& values) {
  return value_named(values, table.name(key, names_in(values)));
}

}  // namespace coatwright

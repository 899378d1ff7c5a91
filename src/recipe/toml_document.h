#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/result.h"

/// A recipe file as data that can be changed and written out again: its keys keep their order, its
/// comments are lost. Reading a recipe for what it means is the readers' matter.
namespace coatwright {

class TomlValue;

/// A table whose keys keep the order of the file.
class TomlKeys {
 public:
  /// @param inline_form written { on = "one line" }.
  explicit TomlKeys(bool inline_form = false) : inline_form_(inline_form) {}

  [[nodiscard]] bool is_inline() const { return inline_form_; }
  [[nodiscard]] const std::vector<std::pair<std::string, TomlValue>>& entries() const {
    return entries_;
  }
  [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }
  [[nodiscard]] TomlValue* find(std::string_view key);
  [[nodiscard]] const TomlValue* find(std::string_view key) const;
  /// The tables written [[key]]; empty where there is none.
  [[nodiscard]] std::vector<TomlKeys*> tables(std::string_view key);
  /// The table of a key, made where there is none.
  [[nodiscard]] TomlKeys& table(std::string_view key, bool inline_form = false);
  /// A text, or nothing where the key is absent or is none.
  [[nodiscard]] std::string text(std::string_view key) const;

  /// Gives a key its value; a new key goes to the end, or behind `after` where that is there.
  void set(std::string_view key, TomlValue value, std::string_view after = "");
  void remove(std::string_view key);

 private:
  bool inline_form_;
  std::vector<std::pair<std::string, TomlValue>> entries_;
};

/// A value: text, whole number, number, true or false, list, table.
class TomlValue {
 public:
  using List = std::vector<TomlValue>;
  using Any = std::variant<std::string, std::int64_t, double, bool, List, TomlKeys>;

  // Implicit, so that set("key", 12.0) reads as what it writes.
  TomlValue(Any value) : value_(std::move(value)) {}          // NOLINT
  TomlValue(std::string text) : value_(std::move(text)) {}    // NOLINT
  TomlValue(const char* text) : value_(std::string(text)) {}  // NOLINT
  TomlValue(double number) : value_(number) {}                // NOLINT

  [[nodiscard]] const Any& any() const { return value_; }
  [[nodiscard]] Any& any() { return value_; }

 private:
  Any value_;
};

/// Reads a file as data. Errors: kInputFile with the line when it is not TOML or holds a date.
[[nodiscard]] Result<TomlKeys> read_toml_document(std::string_view text, const std::string& label);

/// Writes plain keys first, then tables, each in its order. Numbers keep ten digits.
[[nodiscard]] std::string toml_text(const TomlKeys& document);

}  // namespace coatwright
